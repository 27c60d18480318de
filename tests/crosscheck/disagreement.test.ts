import { assess, type Case, compile, evaluate, type RuleSetResult } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { compareRuleSet } from '../../packages/crosscheck/src/compare/compareRuleSet.ts';
import { secondEngine } from '../../packages/crosscheck/src/engine/secondEngine.ts';
import { crossCheck, TranslationError } from '../../packages/crosscheck/src/index.ts';
import { judgeRuleSet } from '../../packages/crosscheck/src/judge/ruleSet.ts';
import { leaf, release, rule } from './support/releases.ts';
import { SETS } from './support/sets.ts';

const plan = compile(SETS, { allow: ['draft'] });
const patient: Case = {
  asOf: '2026-11-25T12:00:00Z',
  timeZone: 'Europe/London',
  recordedAt: '2026-11-25T11:00:00Z',
  facts: {
    'catheter.in-use': true,
    'patient.adult': true,
    'urine.scan': { value: 500, unit: 'mL' },
    'infection.signs': { yes: [], no: ['rigors'] },
    'catheter.inserted-at': '2026-11-10T12:00:00Z',
  },
  chosen: { catheter: 'latex-12' },
};

/** Lays a tampered assessment of one set beside the second engine's answers. */
async function against(shape: string, tamper: (result: RuleSetResult) => RuleSetResult) {
  const { release: set } = plan.sets.find((one) => one.release.shape === shape)!;
  const evaluation = evaluate(plan, patient);
  const second = await judgeRuleSet(set, {
    patient: evaluation.readings,
    option: (kind, option) => evaluation.optionReadings(set.id, kind, option),
  });
  const first = assess(plan, patient, { reasons: 'none' }).ruleSets.find(({ id }) => id === set.id)!;
  return compareRuleSet(set.id, tamper(first), second).disagreements;
}

const firstRule = (
  result: RuleSetResult,
  change: Partial<RuleSetResult['rules'][number]>,
): RuleSetResult => ({
  ...result,
  rules: result.rules.map((one, at) => (at === 0 ? { ...one, ...change } : one)),
});
const firstChoice = (
  result: RuleSetResult,
  change: Partial<NonNullable<RuleSetResult['choices']>[number]>,
) => ({
  ...result,
  choices: result.choices!.map((one) => ({ ...one, ...change })),
});
const options = (result: RuleSetResult) => result.choices![0]!.options;

describe('a disagreement is shown with both answers', () => {
  test('an untouched assessment has none', async () => {
    for (const { shape } of SETS) expect(await against(shape, (result) => result)).toEqual([]);
  });

  test('an outcome', async () => {
    expect(await against('advice', (result) => firstRule(result, { outcome: 'does-not-apply' }))).toEqual([
      { set: 'advice', rule: 'rule-0', what: 'outcome', core: 'does-not-apply', second: 'applies' },
    ]);
  });

  test('a check word', async () => {
    expect(await against('checklist', (result) => firstRule(result, { check: 'not-met' }))).toEqual([
      { set: 'checklist', rule: 'rule-0', what: 'check', core: 'not-met', second: 'met' },
    ]);
  });

  test('a rule that only one of them has', async () => {
    const found = await against('advice', (result) => ({ ...result, rules: result.rules.slice(1) }));
    expect(found.map(({ what }) => what)).toEqual(['rules', 'outcome']);
    expect(found[1]).toMatchObject({ rule: 'rule-0', core: 'nothing', second: 'applies' });
  });

  test('a conclusion, that it is settled, and what else is possible', async () => {
    const found = await against('decision', (result) => ({
      ...result,
      conclusion: { id: 'second', title: 'second', settled: true, possible: ['second'] },
    }));
    expect(found.map(({ what }) => what)).toEqual([
      'conclusion',
      'conclusion settled',
      'conclusion possible',
    ]);
  });

  test('compliance and its counts', async () => {
    const found = await against('checklist', (result) => ({
      ...result,
      compliance: { all: 'true', met: [9, 9], of: [9, 9] },
    }));
    expect(found.map(({ what }) => what)).toEqual(['compliance', 'compliance met', 'compliance of']);
  });

  test('the state, the reasons and the rank of an option', async () => {
    const found = await against('choice', (result) =>
      firstChoice(result, {
        options: options(result).map((one) =>
          one.id === 'pvc-16'
            ? {
                ...one,
                state: 'to-confirm',
                rank: 3,
                excludedBy: ['x'],
                undecided: ['y'],
                preferredBy: ['z'],
                remarks: [{ rule: 'w', summary: '' }],
              }
            : one,
        ),
      }),
    );
    expect(found.map(({ what }) => what)).toEqual(
      ['state', 'excluded by', 'undecided', 'preferred by', 'remarks', 'rank'].map(
        (what) => `catheter, pvc-16: ${what}`,
      ),
    );
  });

  test('the order, what is provisional, nothing left, and the item in the hand', async () => {
    const found = await against('choice', (result) => {
      const { chosen: _item, ...choice } = result.choices![0]!;
      const changed = {
        ...choice,
        provisional: !choice.provisional,
        nothingLeft: ['x'],
        options: [...choice.options].reverse(),
      };
      return { ...result, choices: [changed] };
    });
    expect(found.map(({ what }) => what)).toEqual(
      expect.arrayContaining([
        'catheter provisional',
        'catheter nothing left',
        'catheter order',
        'catheter, item in the hand: state',
      ]),
    );
  });

  test('a set that the evaluator did not report at all', async () => {
    const evaluation = evaluate(plan, patient);
    const second = await judgeRuleSet(SETS[0], { patient: evaluation.readings, option: () => new Map() });
    const { disagreements, compared } = compareRuleSet('advice', undefined, second);
    expect(disagreements).toHaveLength(compared);
    expect(disagreements[0]).toMatchObject({ what: 'rules', core: 'nothing' });
  });
});

describe('the cross-check', () => {
  test('counts what it compared', async () => {
    const checked = await crossCheck(plan, patient);
    expect(checked.agrees).toBe(true);
    expect(checked.compared).toBeGreaterThan(60);
  });

  test('loads a release once', () => {
    expect(secondEngine(SETS[0])).toBe(secondEngine(SETS[0]));
    expect(secondEngine({ ...SETS[0] })).not.toBe(secondEngine(SETS[0]));
  });

  test('rejects where a release has no exact translation, rather than compare the rest', async () => {
    const odd = release({
      rules: [rule('odd', { when: { ...leaf('allergy.latex', 'equal', true), path: '$.x' } as never })],
    });
    await expect(crossCheck(compile([odd], { allow: ['draft'] }), patient)).rejects.toThrow(TranslationError);
  });

  test.each([
    ['2026-11-24', true],
    ['2026-11-25', false],
    ['2026-11-26', false],
  ])('a release that ends on %s is out of period on the 25th: %s', async (end, isOut) => {
    const dated = { ...SETS[0], effectivePeriod: { end } };
    const made = compile([dated], { allow: ['draft'] });
    const late: Case = { ...patient, asOf: '2026-11-25T00:30:00Z' };
    expect(await crossCheck(made, late)).toMatchObject({ agrees: true });
    const outcomes = new Set(assess(made, late).ruleSets[0]?.rules.map(({ outcome }) => outcome));
    expect(outcomes.size === 1 && outcomes.has('not-in-scope')).toBe(isOut);
  });

  test.each(SETS.map((set) => [set.shape, set] as const))(
    'a release out of period concludes nothing and offers nothing: %s',
    async (_shape, set) => {
      const made = compile([{ ...set, effectivePeriod: { end: '2026-11-24' } }], { allow: ['draft'] });
      expect((await crossCheck(made, patient)).disagreements).toEqual([]);
    },
  );

  test('a release out of period runs on the caller’s word, on both engines', async () => {
    const dated = { ...SETS[0], effectivePeriod: { end: '2026-11-24' } };
    const made = compile([dated], { allow: ['draft', 'out-of-period'] });
    expect(await crossCheck(made, patient)).toMatchObject({ agrees: true });
    expect(assess(made, patient).counts.applies).toBeGreaterThan(0);
  });
});
