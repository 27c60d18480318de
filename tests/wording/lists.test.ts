import type { Fact, FactReading, Release } from '@dwellset/core';
import { conditionSentence, factsText, foundWords, readingWords, wordsOf } from '@dwellset/wording';
import { expect, test } from 'vitest';
import { release } from './fixtures.ts';

const volumes: Fact = {
  id: 'urine.volumes',
  type: 'list',
  kind: 'measured',
  at: ['from', 'to'],
  item: {
    from: { type: 'date-time', title: 'start' },
    to: { type: 'date-time', title: 'end' },
    volume: { type: 'number', unit: 'mL', step: 1, limits: [0, 5000], title: 'volume' },
    hours: {
      type: 'number',
      unit: 'h',
      title: 'hours',
      from: { elapsed: { from: 'from', to: 'to' } },
    },
  },
  title: 'urine volumes',
  question: 'Which volumes are charted?',
};
const spares: Fact = {
  id: 'pack.spares',
  type: 'list',
  kind: 'things',
  item: { 'use-by': { type: 'date', title: 'use by' } },
  title: 'spare catheters',
  question: 'Which spare catheters are there?',
};
const least: Fact = {
  id: 'urine.least',
  type: 'number',
  unit: 'mL',
  step: 1,
  limits: [0, 5000],
  title: 'least volume',
  question: 'What was the least volume?',
  from: { least: { of: 'urine.volumes', field: 'volume' } },
};
const newest: Fact = { ...least, id: 'urine.newest', from: { newest: { of: volumes.id, field: 'volume' } } };
const withLists: Release = { ...release, facts: [...release.facts, volumes, spares, least, newest] };
const words = wordsOf([withLists]);
const said = (read: FactReading): string => readingWords(read, words, 'UTC');

test('a list is said by how many entries it has', () => {
  expect(said({ fact: volumes.id, entries: 3 })).toBe('3 entries');
  expect(said({ fact: volumes.id, entries: 1 })).toBe('1 entry');
  expect(said({ fact: volumes.id, entries: 0 })).toBe('none charted');
});

test('a list that may be longer, or of which something is not known, never looks certain', () => {
  const cause = 'within-bounds';
  expect(said({ fact: volumes.id, entries: 2, cause })).toBe('2 entries, not fully known');
  expect(said({ fact: volumes.id, entries: 0, cause })).toBe('none charted, but there may be others');
});

test('a list that nobody supplied is not one without entries', () => {
  expect(said({ fact: volumes.id, entries: 0, cause: 'not-supplied' })).toBe(
    'not known – nobody supplied it',
  );
  expect(said({ fact: volumes.id, entries: 0, cause: 'nothing-recorded' })).toBe(
    'not known – looked for, nothing recorded',
  );
});

test('what is read of a list without entries is said to be read of none', () => {
  expect(foundWords({ fact: least.id, entries: 0, unit: 'mL', inputs: [volumes.id] }, words, 'UTC')).toBe(
    'none charted (computed from urine volumes)',
  );
  expect(said({ fact: newest.id, low: 0, high: 5000, unit: 'mL', cause: 'no-entry' })).toBe('none charted');
  expect(said({ fact: 'urine.scan', low: 0, high: 5000, unit: 'mL', cause: 'no-entry' })).toBe(
    'not known – the table has no entry for it',
  );
});

test('a condition on what is read of a list names it like any other fact', () => {
  const leaf = { fact: least.id, operator: 'greaterThanInclusive', value: 30 } as const;
  expect(conditionSentence(leaf, withLists)).toBe('Least volume is at least 30 mL.');
  expect(conditionSentence({ fact: volumes.id, operator: 'notRecorded' }, withLists)).toBe(
    'Nothing is recorded for urine volumes.',
  );
});

test('the dictionary shows the fields of an entry with their units, and when entries are', () => {
  expect(`\n${factsText({ facts: [volumes, spares], codes: {} })}`).toBe(`
urine

  urine.volumes – urine volumes
     Which volumes are charted?
     list of entries · each entry is of the time from "start" to "end"
       from – start: date and time, with offset
       to – end: date and time, with offset
       volume – volume: number in mL (unit mL) · possible 0 to 5000
       hours – hours: number in h (unit h) · computed unless supplied

pack

  pack.spares – spare catheters
     Which spare catheters are there?
     list of entries · entries have no time
       use-by – use by: date
`);
});

test('the dictionary shows the codes of a field, and that a month without a day is enough', () => {
  const items: Fact = {
    ...spares,
    item: {
      kind: { type: 'code', codes: 'kinds', title: 'kind' },
      'use-by': { type: 'date', title: 'use by', monthMeans: 'last-day' },
    },
  };
  expect(`\n${factsText({ facts: [items], codes: { kinds: { bag: 'drainage bag', gel: 'gel' } } })}`).toBe(`
pack

  pack.spares – spare catheters
     Which spare catheters are there?
     list of entries · entries have no time
       kind – kind: one code
         bag: drainage bag
         gel: gel
       use-by – use by: date · a month without a day means its last day
`);
});
