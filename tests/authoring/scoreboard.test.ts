import { readLibrary, scoreboard } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { filesOf, policy } from './fixture.ts';
import { doc, type Json } from './invented/documents.ts';

const AT = '2030-03-01T12:00:00Z';
const inFor = (days: number): Json => ({
  'catheter.inserted-at': new Date(Date.parse(AT) - days * 86_400_000).toISOString(),
});

/** One case of an answer key on the invented policy. */
function score(answer: Json, rest: Json = {}) {
  const one = { id: 'one', locator: 'p. 9', status: 'read', says: 'Said elsewhere.', answer, ...rest };
  const key = doc('key', {
    id: 'elsewhere',
    title: 'Elsewhere',
    source: 'invented-guide',
    base: {
      asOf: AT,
      timeZone: 'Europe/London',
      recordedAt: AT,
      facts: {
        'catheter.stage': 'in-place',
        'catheter.signs': [],
        'catheter.bypassing': false,
        ...inFor(20),
      },
    },
    cases: [one],
  });
  const library = readLibrary(filesOf({ ...policy(), 'published/elsewhere.key.json': key }));
  const scored = scoreboard(library)[0]?.cases[0];
  if (scored === undefined) throw new Error('the key was not read');
  return scored;
}

const concludes = (...is: string[]): Json => ({ conclusion: { set: 'reason', is } });
const advises = (speaks: boolean, ...restsOn: string[]): Json => ({
  advice: { set: 'removal', restsOn, speaks },
});

describe('a conclusion that others published', () => {
  it('agrees where the set comes to it, and names the rule that made it so', () => {
    expect(score(concludes('take-out'))).toMatchObject({
      verdict: 'agreed',
      judged: [{ received: 'take-out', by: [{ set: 'reason', rule: 'must-go' }] }],
      conflicts: [],
    });
  });

  it('disagrees where the set comes to another, which is shown as a conflict of sources where a position would agree', () => {
    expect(score(concludes('none'))).toMatchObject({
      verdict: 'disagreed',
      judged: [{ received: 'take-out' }],
      conflicts: [{ choice: 'dwell.longest', here: 14, there: 28, evidence: ['ev-longer'] }],
    });
  });

  it('is no conflict of sources where no published position would agree', () => {
    expect(score(concludes('keep'))).toMatchObject({ verdict: 'disagreed', conflicts: [] });
  });

  it('is not decided while it could still be another, and says what it would ask', () => {
    const open = score(concludes('take-out'), { without: ['catheter.inserted-at'] });
    expect(open.verdict).toBe('not-decidable');
    expect(open.judged[0]).toMatchObject({
      undecided: 'open',
      asks: expect.arrayContaining(['catheter.inserted-at']),
    });
  });

  it('agrees before everything is known where all that is possible is accepted', () => {
    const any = concludes('take-out', 'keep', 'none', 'stop');
    expect(score(any, { without: ['catheter.inserted-at'] }).verdict).toBe('agreed');
  });
});

describe('advice that others published', () => {
  it('agrees where a rule that rests on one of the rows speaks', () => {
    expect(score(advises(true, 'ev-review')).verdict).toBe('agreed');
  });

  it('disagrees where it speaks and should not', () => {
    expect(score(advises(false, 'ev-review')).verdict).toBe('disagreed');
  });

  it('is not decided where no rule rests on the rows', () => {
    expect(score(advises(true, 'ev-unused'))).toMatchObject({
      verdict: 'not-decidable',
      judged: [{ undecided: 'no-rule' }],
    });
  });

  it('is not decided where the set does not build', () => {
    const elsewhere = { advice: { set: 'nowhere', restsOn: ['ev-review'], speaks: true } };
    expect(score(elsewhere).judged[0]).toMatchObject({ undecided: 'not-run' });
  });
});

describe('a value that others published', () => {
  const choice = (value: number, unit = 'd', restsOn = ['ev-long']): Json => ({
    choice: { restsOn, unit, value },
  });

  it('agrees with the local choice that rests on the row', () => {
    expect(score(choice(14)).verdict).toBe('agreed');
  });

  it('that is another position of that choice is a conflict of sources', () => {
    expect(score(choice(28))).toMatchObject({
      verdict: 'disagreed',
      conflicts: [{ choice: 'dwell.longest', here: 14, there: 28 }],
    });
  });

  it('is not decided where the choice is in another unit or there is none', () => {
    expect(score(choice(14, 'h')).judged[0]).toMatchObject({ undecided: 'no-choice' });
    expect(score(choice(14, 'd', ['ev-unused'])).judged[0]).toMatchObject({ undecided: 'no-choice' });
  });
});

describe('a conversion that others published', () => {
  const ch = (gives: number, rounding: string): Json => ({
    converts: { value: 16, unit: '[Ch]', to: 'mm', gives, rounding, step: 0.1 },
  });

  it.each([
    [5.4, 'up', 'agreed'],
    [5.3, 'nearest', 'agreed'],
    [5.3, 'up', 'disagreed'],
  ])('16 Ch is %s mm rounded %s: %s', (gives, rounding, verdict) => {
    expect(score(ch(gives, rounding)).verdict).toBe(verdict);
  });
});

describe('whether the rules were written from the same row', () => {
  it('is seen from what rules and positions rest on', () => {
    expect(score(concludes('take-out'), { row: 'ev-review' }).fed).toBe(true);
    expect(score(concludes('take-out'), { row: 'ev-unused' }).fed).toBe(false);
  });

  it('is seen from source and place where the row has no id', () => {
    expect(score(concludes('take-out'), { locator: 'p. 1' }).fed).toBe(true);
    expect(score(concludes('take-out'), { locator: 'p. 9' }).fed).toBe(false);
    expect(score(concludes('take-out'), { locator: 'p. 1', source: 'unused-guide' }).fed).toBe(false);
  });
});

it('the worst part of an answer counts', () => {
  expect(score({ ...concludes('take-out'), ...advises(false, 'ev-review') }).verdict).toBe('disagreed');
  expect(score({ ...concludes('take-out'), ...advises(true, 'ev-unused') }).verdict).toBe('not-decidable');
  expect(score({}).verdict).toBe('not-decidable');
});
