import { releasesFor } from '@dwellset/authoring';
import { analyseSet } from '@dwellset/authoring/analysis';
import { assess, type Case, type CaseValue, compile, type Outcome, type Plan } from '@dwellset/core';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Json } from '../invented/documents.ts';
import { holds, invented, pain, says } from './invented.ts';

const AS_OF = '2030-03-01T12:00:00Z';
const HOUR = 3_600_000;

/** Facts that follow from the same inputs, and every state of these inputs that limits on the former can tell apart. */
interface Group {
  readonly what: string;
  readonly leaves: fc.Arbitrary<Json>;
  readonly states: readonly Readonly<Record<string, CaseValue>>[];
  /** Whether boxes know how the facts hang together; else what nobody can be is only found possible. */
  readonly settled: boolean;
}

const SIGNS = ['<', '<=', '>', '>='] as const;
const limits = (fact: string, values: readonly number[]): fc.Arbitrary<Json> =>
  fc
    .tuple(fc.constantFrom(...SIGNS), fc.constantFrom(...values))
    .map(([sign, value]) => holds(fact, sign, value));

const [HOURS, DAYS] = [
  [23, 36, 48],
  [1, 1.5, 2],
];
/** Each limit, and one step of either fact beside it. */
const ages = [...HOURS, ...DAYS.map((days) => days * 24)].flatMap((at) =>
  [0, 0.1, 2.4].flatMap((by) => [at - by, at + by]),
);
const numbers: readonly (CaseValue | undefined)[] = [
  undefined,
  0,
  1,
  2,
  3,
  4,
  { value: 2, comparator: '>=' },
];
const signs = ['fever', 'pain', 'smell'];

const GROUPS: readonly Group[] = [
  {
    what: 'an instant in hours and in days',
    leaves: fc.oneof(limits('care.hours-in', HOURS), limits('care.days-in', DAYS)),
    states: [
      {},
      { 'care.at': '2030-02-28' },
      ...[0, ...ages].map((age) => ({ 'care.at': new Date(Date.parse(AS_OF) - age * HOUR).toISOString() })),
    ],
    settled: true,
  },
  {
    what: 'two numbers and their sum',
    leaves: fc.oneof(
      limits('care.count', [1, 3]),
      limits('care.more', [1, 3]),
      limits('care.both', [2, 4, 6]),
    ),
    states: numbers.flatMap((one) =>
      numbers.map((other) => ({
        ...(one !== undefined && { 'care.count': one }),
        ...(other !== undefined && { 'care.more': other }),
      })),
    ),
    settled: false,
  },
  {
    what: 'signs and their count',
    leaves: fc.oneof(
      limits('care.signs-seen', [1, 2]),
      fc
        .tuple(fc.constantFrom('has', 'lacks'), fc.constantFrom(...signs))
        .map(([sign, code]) => holds('care.signs', sign, code)),
    ),
    states: [
      {},
      ...fc.sample(fc.subarray(signs), { numRuns: 60, seed: 1 }).map((yes) => ({ 'care.signs': yes })),
    ],
    settled: true,
  },
];

/** How two rules end for a patient, as the core alone reads him. */
interface Patient {
  /** Everything is known exactly. */
  readonly known: boolean;
  readonly outcomes: readonly Outcome[];
}

const isExact = (state: Group['states'][number], facts: number): boolean =>
  Object.keys(state).length === facts &&
  Object.values(state).every(
    (value) => Array.isArray(value) || typeof value === 'number' || String(value).includes('T'),
  );

function patientsOf(plan: Plan, { states }: Group): Patient[] {
  const most = Math.max(...states.map((state) => Object.keys(state).length));
  return states.flatMap((state) =>
    [true, false, undefined].map((inPain): Patient => {
      const facts = { ...state, ...(inPain !== undefined && { 'care.pain': inPain }) };
      const patient: Case = { asOf: AS_OF, recordedAt: AS_OF, timeZone: 'UTC', facts };
      const [set] = assess(plan, patient, { reasons: 'none' }).ruleSets;
      return {
        known: inPain !== undefined && isExact(state, most),
        outcomes: set!.rules.map(({ outcome }) => outcome),
      };
    }),
  );
}

const conditionOf = (leaves: fc.Arbitrary<Json>): fc.Arbitrary<Json> =>
  fc.letrec<{ condition: Json }>((tie) => ({
    condition: fc.oneof(
      { maxDepth: 2, depthSize: 'small' },
      leaves,
      fc.constant(pain),
      fc
        .tuple(fc.constantFrom('all', 'any'), fc.array(tie('condition'), { minLength: 2, maxLength: 3 }))
        .map(([group, of]): Json => ({ [group]: of })),
      tie('condition').map((not): Json => ({ not })),
    ),
  })).condition;

it.each(GROUPS)('what is certain of facts that hang together holds of every patient: $what', (group) => {
  const condition = conditionOf(group.leaves);
  let certain = 0;
  fc.assert(
    fc.property(condition, condition, condition, (scope, a, b) => {
      const library = invented({
        rules: { one: { scope, when: a, ...says('Review it.') }, two: { when: b, ...says('Review it.') } },
      });
      const { findings } = analyseSet(library, 'care');
      const named = new Map(findings.map(({ kind, of, certainty }) => [[kind, ...of].join(' '), certainty]));
      const patients = patientsOf(compile(releasesFor(library, 'care'), { allow: ['draft'] }), group);
      const ends = (rule: 0 | 1, ...outcomes: Outcome[]) =>
        patients.some(({ outcomes: is }) => outcomes.includes(is[rule]!));
      /** What is found is so; and what is so is found, at least as possible. */
      const agree = (name: string, isSo: boolean, mayBeMissed = false): void => {
        const found = named.get(name);
        if (found === 'certain') certain += 1;
        if (!isSo) expect([name, found]).not.toEqual([name, 'certain']);
        else if (!mayBeMissed)
          expect([name, found]).toEqual([name, group.settled ? 'certain' : expect.any(String)]);
      };
      for (const rule of [0, 1] as const) {
        const id = ['one', 'two'][rule]!;
        const speaks = ends(rule, 'applies');
        agree(`never-applies ${id}`, !speaks);
        const spares = patients.some(({ known, outcomes }) => known && outcomes[rule] === 'does-not-apply');
        agree(`always-applies ${id}`, speaks && !spares);
        const [own, other] = rule === 0 ? ['one', 'two'] : ['two', 'one'];
        const alone = patients.some(
          ({ outcomes }) => outcomes[rule] === 'applies' && outcomes[1 - rule] !== 'applies',
        );
        agree(`redundant ${own} ${other}`, speaks && !alone, true);
      }
    }),
    { numRuns: 25, seed: Number(process.env.SEED ?? 20_261_125) },
  );
  expect(certain).toBeGreaterThan(0);
});
