import {
  and,
  type Condition,
  compile,
  evaluate,
  explain,
  FALSE,
  not,
  or,
  TRUE,
  UNKNOWN,
} from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

/** Two parts, what `all` of them is, what `any` of them is: strong Kleene, written out. */
const TABLE = [
  ['true', 'true', 'true', 'true'],
  ['true', 'unknown', 'unknown', 'true'],
  ['true', 'false', 'false', 'true'],
  ['unknown', 'true', 'unknown', 'true'],
  ['unknown', 'unknown', 'unknown', 'unknown'],
  ['unknown', 'false', 'false', 'unknown'],
  ['false', 'true', 'false', 'true'],
  ['false', 'unknown', 'false', 'unknown'],
  ['false', 'false', 'false', 'false'],
] as const;
const NOT = [
  ['true', 'false'],
  ['unknown', 'unknown'],
  ['false', 'true'],
] as const;

const BITS = { true: TRUE, unknown: UNKNOWN, false: FALSE } as const;
const OUTCOME = { true: 'applies', unknown: 'undetermined', false: 'does-not-apply' } as const;
type Word = keyof typeof BITS;

describe('three-valued truth', () => {
  test.each(TABLE)('%s and %s: all is %s, any is %s', (one, other, all, any) => {
    expect(and(BITS[one], BITS[other])).toBe(BITS[all]);
    expect(or(BITS[one], BITS[other])).toBe(BITS[any]);
  });
  test.each(NOT)('not %s is %s', (one, turned) => expect(not(BITS[one])).toBe(BITS[turned]));
});

describe('a rule over two yes/no facts', () => {
  const facts = ['a.one', 'a.two'].map((id) => makeFact(id, { type: 'boolean' }));
  const supplied = (word: Word, id: string) => (word === 'unknown' ? {} : { [id]: word === 'true' });
  const outcome = (when: Condition, one: Word, other: Word) => {
    const named = { named: when };
    const rules = [makeRule('plain', { when }), makeRule('named', { when: { condition: 'named' } })];
    const plan = compile([makeRelease({ facts, rules, conditions: named })], { allow: ['draft'] });
    const patient = makeCase({ ...supplied(one, 'a.one'), ...supplied(other, 'a.two') });
    const outcomes = explain(evaluate(plan, patient)).ruleSets[0]?.rules.map((rule) => rule.outcome);
    expect(outcomes?.[1], 'a named condition says what it stands for').toBe(outcomes?.[0]);
    return outcomes?.[0];
  };
  const parts = [leaf('a.one', 'equal', true), leaf('a.two', 'equal', true)];

  test.each(TABLE)('%s and %s: all %s, any %s', (one, other, all, any) => {
    expect(outcome({ all: parts }, one, other)).toBe(OUTCOME[all]);
    expect(outcome({ any: parts }, one, other)).toBe(OUTCOME[any]);
  });
  test.each(TABLE)(
    '%s and %s: turned round, neither all nor any loses the unknown',
    (one, other, all, any) => {
      const turned = Object.fromEntries(NOT) as Record<Word, Word>;
      expect(outcome({ not: { all: parts } }, one, other)).toBe(OUTCOME[turned[all]]);
      expect(outcome({ not: { any: parts } }, one, other)).toBe(OUTCOME[turned[any]]);
      expect(outcome({ any: parts.map((part) => ({ not: part })) }, one, other)).toBe(OUTCOME[turned[all]]);
    },
  );
});
