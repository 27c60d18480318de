import { FALSE, UNKNOWN } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { judgeRuleSet } from '../../packages/crosscheck/src/judge/ruleSet.ts';
import { judge } from './support/judge.ts';
import { exactly, readings, yesNo } from './support/readings.ts';
import { FACTS, fact, leaf, release, rule } from './support/releases.ts';

const bundle = release({
  shape: 'checklist',
  rules: [
    rule('closed', { expect: leaf('catheter.in-use', 'equal', true) }),
    rule('volume', { expect: leaf('urine.scan', 'lessThanInclusive', 400) }),
    rule('inserter', {
      scope: leaf('patient.adult', 'equal', true),
      expect: leaf('record.inserter', 'recorded'),
    }),
  ],
});
const words = async (known: Parameters<typeof judge>[1]) =>
  Object.fromEntries((await judge(bundle, known)).checks);
const named = { kind: 'text', text: 'somebody' } as const;

describe('a checklist on the second engine', () => {
  test('says met, not met and not applicable', async () => {
    const known = {
      'catheter.in-use': yesNo(true),
      'urine.scan': exactly(500),
      'patient.adult': yesNo(false),
    };
    expect(await words(known)).toEqual({ closed: 'met', volume: 'not-met', inserter: 'not-applicable' });
    const { compliance } = await judge(bundle, known);
    expect(compliance).toEqual({ all: 'false', met: [1, 1], of: [2, 2] });
  });

  test('says not recorded where somebody looked and found nothing, undetermined where nobody supplied it', async () => {
    expect(
      await words({ 'catheter.in-use': null, 'patient.adult': yesNo(true), 'record.inserter': null }),
    ).toEqual({
      closed: 'not-recorded',
      volume: 'undetermined',
      inserter: 'not-met',
    });
  });

  test('counts what is undecided as a range, and all-or-none as unknown', async () => {
    const { compliance } = await judge(bundle, { 'catheter.in-use': yesNo(true), 'record.inserter': named });
    expect(compliance).toEqual({ all: 'unknown', met: [2, 3], of: [3, 3] });
  });

  test('a check that fails but may not be applicable is not held against anybody yet', async () => {
    const { compliance } = await judge(bundle, {
      'catheter.in-use': yesNo(true),
      'urine.scan': exactly(100),
      'record.inserter': null,
    });
    expect(compliance).toEqual({ all: 'unknown', met: [2, 2], of: [2, 3] });
  });

  test('all met is compliance; none applicable is no statement at all', async () => {
    const all = { 'catheter.in-use': yesNo(true), 'urine.scan': exactly(100), 'record.inserter': named };
    expect((await judge(bundle, all)).compliance).toEqual({ all: 'true', met: [3, 3], of: [3, 3] });
    const nobody = { ...bundle, scope: leaf('patient.adult', 'equal', true) };
    expect((await judge(nobody, { 'patient.adult': yesNo(false) })).compliance).toBeUndefined();
  });

  test('an unknown beside a settled leaf is not what keeps a check open', async () => {
    const either = {
      all: [
        { any: [leaf('allergy.latex', 'equal', true), leaf('urine.scan', 'greaterThan', 1)] },
        leaf('catheter.in-use', 'equal', true),
      ],
    };
    const made = release({ shape: 'checklist', rules: [rule('one', { expect: either })] });
    const { checks } = await judge(made, { 'urine.scan': exactly(5), 'catheter.in-use': null });
    expect(checks.get('one')).toBe('not-recorded');
  });

  test('a derived fact counts as not recorded by what it is derived from', async () => {
    const days = fact('catheter.days', 'number', {
      unit: 'd',
      from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
    });
    const made = release({
      shape: 'checklist',
      facts: [...FACTS, days],
      rules: [rule('short', { expect: leaf('catheter.days', 'lessThan', 7) })],
    });
    const wordWith = async (recorded: typeof FALSE | typeof UNKNOWN) => {
      const known = new Map(
        readings({ 'catheter.inserted-at': recorded === FALSE ? null : undefined! }, FACTS),
      );
      const open = { kind: 'interval', low: 0, high: Infinity } as const;
      known.set(days.id, {
        fact: days,
        bounds: open,
        recorded,
        cause: 'derived',
        inputs: ['catheter.inserted-at'],
      });
      const { checks } = await judgeRuleSet(made, { patient: known, option: () => new Map() });
      return checks.get('short');
    };
    expect(await wordWith(FALSE)).toBe('not-recorded');
    expect(await wordWith(UNKNOWN)).toBe('undetermined');
  });
});
