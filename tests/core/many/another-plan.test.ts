import {
  assess,
  type Case,
  compile,
  judgeCases,
  type LeaveToRun,
  type Release,
  readCases,
} from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../../reference/release.ts';

const allow: readonly LeaveToRun[] = ['draft'];

function outcomesOfEach(
  releases: readonly Release[],
  cases: readonly Case[],
  also: readonly LeaveToRun[] = [],
) {
  const plan = compile(releases, { allow: [...allow, ...also] });
  return cases.map((patient) =>
    assess(plan, patient, { reasons: 'none' }).ruleSets.map(({ rules }) =>
      rules.map(({ outcome }) => outcome),
    ),
  );
}

/** The same by columns that were read for other rules. */
function outcomesOfMany(
  releases: readonly Release[],
  cases: readonly Case[],
  { before, also = [] }: { readonly before: readonly Release[]; readonly also?: readonly LeaveToRun[] },
) {
  const columns = readCases(compile(before, { allow }), cases);
  const judged = judgeCases(compile(releases, { allow: [...allow, ...also] }), columns);
  return cases.map((_, row) =>
    judged.plan.sets.map(({ release, rules }) =>
      rules.map(({ rule }) => judged.outcome(release.id, rule.id, row)),
    ),
  );
}

describe('a set with an effective period, over many cases', () => {
  const set = (effectivePeriod?: Release['effectivePeriod']): Release[] => [
    makeRelease({
      facts: [makeFact('sign.fever', { type: 'boolean' })],
      rules: [makeRule('fever', { when: leaf('sign.fever', 'equal', true) })],
      ...(effectivePeriod && { effectivePeriod }),
    }),
  ];
  const cases = ['2026-01-01', '2026-06-01', '2026-12-31'].flatMap((day) =>
    [true, false].map((fever) =>
      makeCase({ 'sign.fever': fever }, { asOf: `${day}T12:00:00Z`, recordedAt: `${day}T12:00:00Z` }),
    ),
  );
  const spring = set({ start: '2026-03-01', end: '2026-06-30' });

  test('says nothing outside it', () => {
    const alone = outcomesOfEach(spring, cases);
    expect(new Set(alone.flat(2))).toEqual(new Set(['not-in-scope', 'applies', 'does-not-apply']));
    expect(outcomesOfMany(spring, cases, { before: spring })).toEqual(alone);
  });

  test('runs outside it on the caller’s word', () => {
    const alone = outcomesOfEach(spring, cases, ['out-of-period']);
    expect(alone.flat(2)).not.toContain('not-in-scope');
    expect(outcomesOfMany(spring, cases, { before: spring, also: ['out-of-period'] })).toEqual(alone);
  });

  test('is told another period of columns that were read before', () => {
    const autumn = set({ start: '2026-09-01' });
    expect(outcomesOfMany(autumn, cases, { before: spring })).toEqual(outcomesOfEach(autumn, cases));
    expect(outcomesOfMany(set(), cases, { before: spring })).toEqual(outcomesOfEach(set(), cases));
  });
});

describe('columns for edited rules', () => {
  const codes = { levels: { high: 'high', low: 'low' } };
  const pain = makeFact('a.pain', { type: 'boolean' });
  const concluded = (from: string) =>
    makeFact(`conclusion.${from}`, { type: 'code', codes: 'levels', from: { conclusion: from } });
  const deciding = (id: string, facts: Release['facts'], high: ReturnType<typeof leaf>): Release =>
    makeRelease({
      id,
      shape: 'decision',
      conclusions: [{ id: 'high', title: 'high' }],
      defaultConclusion: { id: 'low', title: 'low' },
      facts,
      codes,
      rules: [makeRule(`${id}-high`, { when: high, concludes: 'high' })],
    });
  /** The last set reads what the middle one concludes from what the first one concludes. */
  const chain = (painIs: boolean): Release[] => [
    deciding('first', [pain], leaf('a.pain', 'equal', painIs)),
    deciding('middle', [pain, concluded('first')], leaf('conclusion.first', 'equal', 'high')),
    makeRelease({
      id: 'last',
      facts: [pain, concluded('first'), concluded('middle')],
      codes,
      rules: [makeRule('last', { when: leaf('conclusion.middle', 'equal', 'high') })],
    }),
  ];

  test('a conclusion that rests on an edited set two steps away is read again', () => {
    const cases = [true, false].map((is) => makeCase({ 'a.pain': is }));
    const alone = outcomesOfEach(chain(false), cases);
    expect(alone).not.toEqual(outcomesOfEach(chain(true), cases));
    expect(outcomesOfMany(chain(false), cases, { before: chain(true) })).toEqual(alone);
  });

  test('an edited rule leaves the cases unread, an edited fact does not', () => {
    const parts = (question: string, limit: number, limits: [number, number]) => [
      makeRelease({
        facts: [{ ...makeFact('a.volume', { type: 'number', unit: 'mL', limits }), question }],
        rules: [makeRule('much', { when: leaf('a.volume', 'greaterThan', limit) })],
      }),
    ];
    let looks = 0;
    const patient = makeCase({});
    const watched = Object.defineProperty({ ...patient }, 'facts', {
      get: () => {
        looks += 1;
        return { 'a.volume': { value: 500, unit: 'mL' } };
      },
    });
    const [first, edited, renamed, narrower] = [
      parts('How much?', 300, [0, 1000]),
      parts('How much?', 600, [0, 1000]),
      parts('What volume?', 600, [0, 1000]),
      parts('What volume?', 200, [0, 400]),
    ].map((releases) => compile(releases, { allow })) as [never, never, never, never];
    const columns = readCases(first, [watched]);
    const before = looks;
    expect(before).toBeGreaterThan(0);
    for (const plan of [first, edited, renamed]) judgeCases(plan, columns).rule('invented', 'much');
    expect(looks).toBe(before);
    expect(judgeCases(narrower, columns).outcome('invented', 'much', 0)).toBe('undetermined');
    expect(looks).toBeGreaterThan(before);
  });
});
