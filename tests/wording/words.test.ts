import { ABSENT_REASONS, type Cause, STATUSES } from '@dwellset/core';
import { causeWords, sourceWords, statusWords } from '@dwellset/wording';
import { expect, test } from 'vitest';

const OWN: readonly Cause[] = [
  'not-supplied',
  'nothing-recorded',
  'stale',
  'undated',
  'conflicting',
  'impossible',
  'unusual',
  'wrong-type',
  'wrong-unit',
  'no-entry',
  'within-bounds',
  'derived',
];

test('every reason for not knowing has words of its own', () => {
  const words = [...OWN, ...ABSENT_REASONS].map(causeWords);
  expect(words.every((said) => /^[a-z][a-z ,]+[a-z]$/.test(said))).toBe(true);
  expect(new Set(words).size).toBe(words.length);
});

test('a source from memory or without grade says so', () => {
  const item = {
    source: 'x',
    body: 'Society of Invented Care',
    title: 'Catheters on the ward',
    locator: 'table 3',
    grade: 'ungraded',
    status: 'memory',
  } as const;
  expect(sourceWords(item)).toBe(
    'Society of Invented Care, Catheters on the ward, table 3 · ungraded · from memory, not checked',
  );
  expect(sourceWords({ ...item, status: 'reported', note: 'secondary', year: 2020, edition: '2020' })).toBe(
    'Society of Invented Care, Catheters on the ward, 2020, table 3 · ungraded · as reported, not read in the source (secondary)',
  );
});

test('the five statuses cannot be mistaken for each other', () => {
  expect(STATUSES.map((status) => statusWords(status, 'a review'))).toEqual([
    'read in the source',
    'as reported in a review',
    'computed from a review',
    'common practice, no source',
    'from memory, not checked',
  ]);
});
