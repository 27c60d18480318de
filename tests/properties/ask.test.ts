import {
  assess,
  type Case,
  type CaseValue,
  compile,
  type Fact,
  type Release,
  type Rule,
} from '@dwellset/core';
import { expect, test } from 'vitest';
import { referenceAssess } from '../reference/assess.ts';
import { generateCondition } from '../reference/generate/conditions.ts';
import { type Random, random } from '../reference/generate/random.ts';
import { makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

const SEED = 606;

/** Facts with few enough values to try them all. */
const DOMAINS: readonly (readonly [fact: Fact, values: readonly CaseValue[]])[] = [
  [makeFact('a.yes', { type: 'boolean' }), [true, false]],
  [makeFact('a.other', { type: 'boolean' }), [true, false]],
  [makeFact('b.side', { type: 'code', codes: 'answers' }), ['left', 'right']],
  [makeFact('b.reason', { type: 'code', codes: 'reasons' }), ['retention', 'output', 'wound']],
  [makeFact('b.count', { type: 'number', unit: '1', step: 1, limits: [0, 3] }), [0, 1, 2, 3]],
];
const VALUES = new Map(DOMAINS.map(([fact, values]) => [fact.id, values]));
const CODES = {
  answers: { left: 'left', right: 'right' },
  reasons: { retention: 'retention', output: 'output', wound: 'wound' },
};

function smallRelease(draw: Random): Release {
  const facts = DOMAINS.map(([fact]) => fact);
  const make = (depth: number) => withoutChoices(draw, facts, depth);
  const parts: Partial<Rule> = {
    ...(draw.chance(0.4) ? { scope: make(2) } : {}),
    ...(draw.chance(0.5) ? { when: make(4) } : { expect: make(4) }),
    ...(draw.chance(0.3) ? { locked: true } : {}),
  };
  // A locked rule does not wait for the population, so it does not ask for it either.
  const population =
    !parts.locked && draw.chance(0.3) ? { population: { when: make(1), otherwise: 'not this patient' } } : {};
  return makeRelease({ facts, codes: CODES, rules: [makeRule('only', parts)], ...population });
}

/** Conditions over the small facts alone: no local choices, and nothing that asks whether there is a record. */
function withoutChoices(draw: Random, facts: readonly Fact[], depth: number): NonNullable<Rule['when']> {
  for (;;) {
    const condition = generateCondition(draw, { facts, named: [], around: 0 }, depth);
    if (!/"parameter"|ecorded/.test(JSON.stringify(condition))) return condition;
  }
}

const isSettled = (release: Release, facts: Case['facts']) =>
  referenceAssess([release], makeCase(facts)).sets[0]?.rules.only !== 'undetermined';

function subsets(ids: readonly string[]): string[][] {
  const all = Array.from({ length: 2 ** ids.length }, (_, mask) => ids.filter((_id, at) => mask & (1 << at)));
  return all.filter((set) => set.length > 0).sort((one, other) => one.length - other.length);
}

function everyAnswer(ids: readonly string[]): Case['facts'][] {
  const [first, ...others] = ids;
  if (first === undefined) return [{}];
  const values = VALUES.get(first) ?? [];
  return everyAnswer(others).flatMap((answers) => values.map((value) => ({ ...answers, [first]: value })));
}

/** By trying everything: the minimal sets that some answers settle, and the sizes of sets that all answers settle. */
function bruteForce(release: Release, known: Case['facts']) {
  const open = [...VALUES.keys()].filter((id) => !Object.hasOwn(known, id));
  const settles = (ids: readonly string[]) =>
    everyAnswer(ids).map((answers) => isSettled(release, { ...known, ...answers }));
  const some: string[][] = [];
  const deciding: string[][] = [];
  for (const ids of subsets(open)) {
    const settled = settles(ids);
    const isMinimal = !some.some((smaller) => smaller.every((id) => ids.includes(id)));
    if (isMinimal && settled.includes(true)) some.push(ids);
    if (!settled.includes(false)) deciding.push(ids);
  }
  const fewest = deciding[0]?.length;
  return { some, deciding: deciding.filter((ids) => ids.length === fewest) };
}

const inOrder = (sets: readonly (readonly string[])[]) =>
  sets.map((set) => [...set].sort().join(' + ')).sort();

test('the questions of an undetermined rule are those that trying every answer finds', () => {
  const draw = random(SEED);
  let undetermined = 0;
  for (let index = 0; index < 700; index++) {
    const release = smallRelease(draw);
    const known = Object.fromEntries(
      [...VALUES].flatMap(([id, values]) => (draw.chance(0.35) ? [[id, draw.pick(values)]] : [])),
    ) as Case['facts'];
    const plan = compile([release], { allow: ['draft'] });
    const rule = assess(plan, makeCase(known), { reasons: 'none' }).ruleSets[0]?.rules[0];
    if (rule?.outcome !== 'undetermined') {
      expect([rule?.asks, rule?.decides], 'a settled rule asks nothing').toEqual([undefined, undefined]);
      continue;
    }
    undetermined++;
    const { some, deciding } = bruteForce(release, known);
    const where = JSON.stringify({ index, rules: release.rules, population: release.population, known });
    expect(inOrder(rule.asks ?? []), where).toEqual(inOrder(some));
    const sizes = (rule.asks ?? []).map((set) => set.length);
    expect(sizes, 'smallest first').toEqual([...sizes].sort((one, other) => one - other));
    expect(inOrder(deciding), where).toContain(inOrder([rule.decides ?? []])[0]);
  }
  expect(undetermined).toBeGreaterThan(200);
});
