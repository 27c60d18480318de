import { type Case, compile, evaluate, explain, type Fact, type FactLeaf, OPERATORS } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { leaf, makeCase, makeRelease, makeRule } from '../reference/release.ts';
import { CODES, FACTS, KNOWN, type Word } from './leaf-table.ts';

const WORDS: Readonly<Record<string, Word>> = {
  applies: 'true',
  'does-not-apply': 'false',
  undetermined: 'unknown',
};

/** The truth of one leaf for one case, and why its fact is not exactly known. */
function judged(fact: Fact, condition: ReturnType<typeof leaf>, patient: Case) {
  const release = makeRelease({
    facts: [fact],
    codes: CODES,
    rules: [makeRule('leaf', { when: condition })],
  });
  const evaluation = evaluate(compile([release], { allow: ['draft'] }), patient);
  const outcome = explain(evaluation).ruleSets[0]?.rules[0]?.outcome ?? '';
  return { truth: WORDS[outcome], cause: evaluation.readings.get(fact.id)?.cause };
}

describe.each(Object.values(FACTS))('a $type that is known or known within bounds', (fact) => {
  test.each(KNOWN[fact.type])('%j %s %j is %s', (value, operator, expected, truth) => {
    const patient = makeCase({ [fact.id]: value } as Case['facts']);
    expect(judged(fact, leaf(fact.id, operator, expected), patient).truth).toBe(truth);
  });
});

/** Each cause, how it comes about, whether something counts as recorded, and the types it happens to. */
type Way = readonly [cause: string, recorded: Word, facts: (fact: Fact) => Partial<Case> | undefined];
const GOOD: Readonly<Record<Fact['type'], unknown>> = {
  list: undefined,
  boolean: true,
  number: 50,
  code: 'pvc',
  codes: ['pvc'],
  date: '2026-11-20',
  'date-time': '2026-11-20T09:00:00Z',
  text: 'lot 7',
};
const stated = (fact: Fact, more: object = {}) => ({
  value: GOOD[fact.type],
  ...(fact.unit ? { unit: fact.unit } : {}),
  ...more,
});
const given = (fact: Fact, value: unknown): Partial<Case> => ({
  facts: { [fact.id]: value } as Case['facts'],
});
const onlyNumbers = (value: object) => (fact: Fact) =>
  fact.type === 'number' ? given(fact, value) : undefined;
const absent = (cause: string, recorded: Word): Way => [
  cause,
  recorded,
  (fact) => given(fact, { absent: cause }),
];

const WAYS: readonly Way[] = [
  ['not-supplied', 'unknown', () => ({})],
  ['nothing-recorded', 'false', (fact) => given(fact, null)],
  ['nothing-recorded', 'false', () => ({ searched: ['a'] })],
  absent('not-performed', 'false'),
  absent('not-applicable', 'false'),
  absent('asked-unknown', 'false'),
  absent('asked-declined', 'false'),
  absent('unknown', 'unknown'),
  absent('temp-unknown', 'unknown'),
  absent('not-asked', 'unknown'),
  absent('masked', 'unknown'),
  absent('unsupported', 'unknown'),
  absent('as-text', 'unknown'),
  absent('error', 'unknown'),
  absent('not-a-number', 'unknown'),
  absent('negative-infinity', 'unknown'),
  absent('positive-infinity', 'unknown'),
  absent('not-permitted', 'unknown'),
  absent('not-needed', 'unknown'),
  ['stale', 'true', (fact) => given(fact, stated(fact, { at: '2026-11-24T08:59:59Z' }))],
  ['undated', 'true', (fact) => given(fact, stated(fact))],
  ['conflicting', 'unknown', (fact) => given(fact, stated(fact, { at: '2026-11-25T09:00:01Z' }))],
  ['wrong-type', 'unknown', (fact) => given(fact, fact.type === 'text' ? 7 : 'no such value')],
  ['wrong-unit', 'unknown', onlyNumbers({ value: 50, unit: 'L' })],
  ['impossible', 'unknown', onlyNumbers({ value: 101, unit: 'mL' })],
  ['unusual', 'unknown', onlyNumbers({ value: 95, unit: 'mL' })],
];

/** Inside the domain, so that no limit settles what nobody knows. */
const RIGHT_SIDE: Readonly<Record<Fact['type'], unknown>> = {
  list: undefined,
  boolean: true,
  number: 50,
  code: 'pvc',
  codes: 'pvc',
  date: '2026-11-24',
  'date-time': '2026-11-24T09:00:00Z',
  text: undefined,
};

describe.each(Object.values(FACTS))('a $type that is not known', (fact) => {
  const operators = [...new Set(KNOWN[fact.type].map(([, operator]) => operator))];
  const rows = operators.flatMap((operator) =>
    WAYS.flatMap(([cause, recorded, parts]) => {
      const patient = parts(fact);
      return patient === undefined ? [] : [[operator, cause, recorded, patient] as const];
    }),
  );
  test.each(rows)('%s, %s', (operator, cause, recorded, parts) => {
    const { recordedAt: usual, ...bare } = makeCase({}, parts);
    const patient = cause === 'undated' ? bare : { ...bare, recordedAt: usual as string };
    const found = judged(fact, leaf(fact.id, operator, rightSideFor(fact, operator)), patient);
    const turned = { true: 'false', false: 'true', unknown: 'unknown' } as const;
    const truth =
      operator === 'recorded' ? recorded : operator === 'notRecorded' ? turned[recorded] : 'unknown';
    expect(found).toEqual({ truth, cause });
  });
});

function rightSideFor(fact: Fact, operator: FactLeaf['operator']): unknown {
  if (operator === 'recorded' || operator === 'notRecorded') return undefined;
  const value = RIGHT_SIDE[fact.type];
  return ['in', 'notIn', 'containsAny'].includes(operator) ? [value] : value;
}

test('a number that nobody knows still lies within its limits', () => {
  const { number } = FACTS;
  expect(judged(number, leaf(number.id, 'lessThanInclusive', 100), makeCase({})).truth).toBe('true');
  expect(judged(number, leaf(number.id, 'lessThan', 0), makeCase({})).truth).toBe('false');
});

test('every operator stands in the table', () => {
  const used = new Set(Object.values(KNOWN).flatMap((rows) => rows.map(([, operator]) => operator)));
  expect([...OPERATORS].filter((operator) => !used.has(operator))).toEqual([]);
});
