import { type Derivation, type ExactValue, type Fact, type WitnessInputs, witnessOf } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { inputsOf } from './support/inputs.ts';
import { fact, type Parts, parameter } from './support/read.ts';

const AS_OF = Date.UTC(2026, 10, 25, 9);
const inserted = fact('catheter.inserted-at', { type: 'date-time' });
const removed = fact('catheter.removed-at', { type: 'date-time', notBefore: inserted.id });
const useBy = fact('pack.use-by', { type: 'date' });
const volume = fact('urine.volume', { type: 'number', unit: 'mL', step: 10, limits: [0, 5000] });
const weight = fact('patient.weight', { type: 'number', unit: 'kg', limits: [1, 400] });
const label = fact('catheter.label-dwell', { type: 'number', unit: 'd', step: 1, limits: [1, 30] });
const material = fact('catheter.material', { type: 'code', codes: 'materials' });
const table = fact('catheter.table-dwell', {
  type: 'number',
  unit: 'd',
  limits: [1, 100],
  from: { lookup: { table: 'dwell.longest', key: material.id, column: 'days' } },
});
const FACTS = [inserted, removed, useBy, volume, weight, label, material, table];
const PARTS: Parts = {
  codes: {
    materials: { pvc: 'PVC', silicone: 'silicone' },
    conclusions: { supported: 'supported', unsupported: 'not' },
  },
  parameters: [parameter('urine.margin', { type: 'number', unit: 'mL', value: 55 })],
  tables: [
    {
      id: 'dwell.longest',
      key: 'materials',
      title: 'Longest dwell',
      columns: { days: { type: 'number', unit: 'd' } },
      rows: { pvc: { days: { value: 7 } }, silicone: { days: { value: 84 } } },
    },
  ],
};
const INPUTS = inputsOf(FACTS, PARTS, AS_OF, 'Europe/London');

const number = (unit: string, from: Derivation, parts: Partial<Fact> = {}): Fact =>
  fact('now.derived', { type: 'number', unit, from, ...parts });
const witness = (of: Fact, target: ExactValue, inputs: WitnessInputs = INPUTS) => {
  const found = witnessOf(of, target, inputs);
  return found && Object.fromEntries(found);
};

describe('values that make a derived fact what is wanted', () => {
  it.each<[string, Fact, ExactValue, Readonly<Record<string, unknown>>]>([
    [
      'an insertion 26 hours before the case',
      number('h', { elapsed: { from: inserted.id, to: 'asOf' } }),
      26,
      { [inserted.id]: AS_OF - 26 * 3_600_000 },
    ],
    [
      'a use-by three days ahead',
      number('d', { calendarDays: { from: 'asOf', to: useBy.id } }),
      3,
      { [useBy.id]: Date.UTC(2026, 10, 28) / 86_400_000 },
    ],
    [
      'a volume on its step past a local choice that is not',
      number('mL', { difference: [volume.id, { parameter: 'urine.margin' }] }),
      45,
      { [volume.id]: 100 },
    ],
    [
      'the first operand alone where it can have the value',
      number('d', { firstRecorded: [label.id, table.id] }),
      28,
      { [label.id]: 28 },
    ],
    [
      'the first known to be empty where only the second can',
      number('d', { firstRecorded: [label.id, table.id] }),
      84,
      { [label.id]: null, [table.id]: 84 },
    ],
    ['nothing to choose where what is given fits already', number('h', { localHour: { at: 'asOf' } }), 9, {}],
  ])('%s', (_name, of, target, expected) => {
    expect(witness(of, target)).toEqual(expected);
  });

  it('keeps the order of two instants', () => {
    const found = witness(number('h', { elapsed: { from: inserted.id, to: removed.id } }, { step: 1 }), 0);
    expect(Number(found?.[removed.id])).toBeGreaterThanOrEqual(Number(found?.[inserted.id]));
  });

  it('finds the hour that the clock change left out of its day on the day before', () => {
    const asOf = Date.UTC(2026, 2, 29, 9);
    const found = witness(
      number('h', { localHour: { at: inserted.id } }),
      1.5,
      inputsOf(FACTS, PARTS, asOf, 'Europe/London'),
    );
    expect(found).toEqual({ [inserted.id]: Date.UTC(2026, 2, 28, 1, 30) });
  });

  it.each<[string, Fact, ExactValue]>([
    [
      "the target is outside the fact's limits",
      number('mL', { sum: [volume.id, volume.id] }, { limits: [0, 100] }),
      200,
    ],
    [
      'the target is between two steps of the fact',
      number('mL', { sum: [volume.id, volume.id] }, { step: 50 }),
      75,
    ],
    [
      "the operands' limits do not reach it",
      number('mL', { difference: [volume.id, { parameter: 'urine.margin' }] }),
      4950,
    ],
    [
      "the operands' steps jump over it",
      number('mL', { difference: [volume.id, { parameter: 'urine.margin' }] }),
      50,
    ],
    ['an instant would lie after the case', number('h', { elapsed: { from: 'asOf', to: inserted.id } }), 1],
    ['instants would be out of order', number('h', { elapsed: { from: inserted.id, to: removed.id } }), -2],
    ['it would take part of a day', number('d', { calendarDays: { from: inserted.id, to: 'asOf' } }), 1.5],
    [
      'no code leads to it',
      number('d', { lookup: { table: 'dwell.longest', key: material.id, column: 'days' } }),
      28,
    ],
    ['what is given differs', number('h', { localHour: { at: 'asOf' } }), 10],
    [
      'a derived operand would have to be emptied',
      number('d', { firstRecorded: [table.id, label.id] }, { limits: [0, 500] }),
      200,
    ],
    ['the target is of another type', number('h', { localHour: { at: 'asOf' } }), 'nine'],
  ])('none where %s', (_name, of, target) => {
    expect(witness(of, target)).toBeUndefined();
  });

  it('finds a band that holds neither a limit nor a cut of the number', () => {
    const change = fact('urine.change', { type: 'number', unit: 'mL', step: 1, limits: [-5, 10] });
    const from = {
      band: { of: change.id, cuts: [0.3, 3], codes: ['supported', 'unsupported', 'supported'] },
    };
    const of = fact('urine.grade', { type: 'code', codes: 'conclusions', from });
    expect(witness(of, 'unsupported', inputsOf([change], PARTS, AS_OF, 'UTC'))).toEqual({ [change.id]: 1 });
  });

  it('takes what another rule set concludes as given', () => {
    const of = fact('indication.conclusion', {
      type: 'code',
      codes: 'conclusions',
      from: { conclusion: 'indication' },
    });
    const concluding = (possible: readonly string[]): WitnessInputs => ({
      ...INPUTS,
      conclusion: () => ({ possible, settled: possible.length === 1, stands: true, waitsFor: [] }),
    });
    expect(witness(of, 'supported', concluding(['supported']))).toEqual({});
    expect(witness(of, 'unsupported', concluding(['supported']))).toBeUndefined();
    expect(witness(of, 'supported', concluding(['supported', 'unsupported']))).toBeUndefined();
  });

  it('is not looked for of a fact that is not derived, or that looks at a list', () => {
    expect(() => witnessOf(volume, 10, INPUTS)).toThrow('is not derived');
    expect(() => witnessOf(number('1', { count: { of: 'urine.volumes' } }), 1, INPUTS)).toThrow(
      'looks at a list',
    );
  });
});
