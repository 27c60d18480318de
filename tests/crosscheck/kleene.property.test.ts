import type { Bounds, Condition, Truth } from '@dwellset/core';
import { and, FALSE, not, or, TRUE, UNKNOWN, word } from '@dwellset/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readings, yesNo } from './support/readings.ts';
import { FACTS, fact, leaf } from './support/releases.ts';
import { secondTruth } from './support/secondTruth.ts';

const FACT_IDS = ['a.one', 'a.two', 'a.three', 'a.four'];
const QUESTIONS = FACT_IDS.map((id) => fact(id, 'boolean'));
const facts = [...FACTS, ...QUESTIONS];

const { tree } = fc.letrec<{ tree: Condition }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc
      .tuple(fc.constantFrom(...FACT_IDS), fc.constantFrom('equal', 'notEqual'))
      .map(([id, how]) => leaf(id, how, true)),
    fc.constantFrom(...FACT_IDS).map((id) => leaf(id, 'recorded')),
    fc.array(tie('tree'), { minLength: 1, maxLength: 3 }).map((all) => ({ all })),
    fc.array(tie('tree'), { minLength: 1, maxLength: 3 }).map((any) => ({ any })),
    tie('tree').map((inner) => ({ not: inner })),
  ),
}));

type Known = Readonly<Record<string, Bounds | null>>;
const answers = fc
  .array(fc.constantFrom<Bounds | null | undefined>(yesNo(true), yesNo(false), null, undefined), {
    minLength: FACT_IDS.length,
    maxLength: FACT_IDS.length,
  })
  .map(
    (given): Known =>
      Object.fromEntries(FACT_IDS.flatMap((id, at) => (given[at] === undefined ? [] : [[id, given[at]]]))),
  );

/** The Kleene tables, word for word. */
function plainly(condition: Condition, known: Known): Truth {
  if ('all' in condition)
    return condition.all.reduce<Truth>((sofar, one) => and(sofar, plainly(one, known)), TRUE);
  if ('any' in condition)
    return condition.any.reduce<Truth>((sofar, one) => or(sofar, plainly(one, known)), FALSE);
  if ('not' in condition) return not(plainly(condition.not, known));
  if (!('fact' in condition)) throw new Error('not generated');
  const bounds = known[condition.fact];
  if (condition.operator === 'recorded')
    return bounds === undefined ? UNKNOWN : bounds === null ? FALSE : TRUE;
  if (bounds?.kind !== 'possible') return UNKNOWN;
  return bounds.possible.includes('true') === (condition.operator === 'equal') ? TRUE : FALSE;
}

test('any nesting of all, any and not comes out on the second engine as the Kleene tables say', async () => {
  const seen = new Set<string>();
  await fc.assert(
    fc.asyncProperty(tree, answers, async (condition, known) => {
      const expected = word(plainly(condition, known));
      seen.add(expected);
      expect(await secondTruth(condition, readings(known, facts), { facts })).toBe(expected);
    }),
    { numRuns: 300 },
  );
  expect([...seen].sort()).toEqual(['false', 'true', 'unknown']);
});
