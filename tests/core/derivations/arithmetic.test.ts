import type { Case, Fact, Operand } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { asksOf, fact, faultsOf, parameter, readOne } from './support/read.ts';

const volume = fact('urine.volume', { type: 'number', unit: 'mL', step: 1, limits: [0, 5000] });
const other = fact('urine.residual', { type: 'number', unit: 'mL', step: 1, limits: [0, 2000] });
const weight = fact('patient.weight', { type: 'number', unit: 'kg', limits: [0, 400] });
const hours = fact('urine.hours', { type: 'number', unit: 'h', step: 0.5, limits: [0, 24] });
const change = fact('urine.change', { type: 'number', unit: 'mL' });
const inserted = fact('catheter.inserted-at', { type: 'date-time' });
const OPERANDS = [volume, other, weight, hours, change, inserted];
const PARTS = {
  parameters: [
    parameter('urine.margin', { type: 'number', unit: 'mL', value: 50 }),
    parameter('urine.strict', { type: 'boolean', value: true }),
  ],
};

const number = (unit: string, from: NonNullable<Fact['from']>, parts: Partial<Fact> = {}): Fact =>
  fact('urine.derived', { type: 'number', unit, from, ...parts });
const minus = (b: Operand, parts: Partial<Fact> = {}) => number('mL', { difference: [volume.id, b] }, parts);
const total = number('mL', { sum: [volume.id, other.id, { parameter: 'urine.margin' }] });
const rate = (parts: Partial<Fact> = {}) =>
  number('mL/kg/h', { ratio: [volume.id, weight.id, hours.id] }, parts);
const share = number('1', { ratio: [other.id, volume.id] });
const times = number('mL.h', { product: [volume.id, hours.id] });
const mL = (value: number) => ({ value, unit: 'mL' });
const KNOWN = { [volume.id]: mL(300), [other.id]: mL(100) };
const atLeast = (value: number) => ({ value, unit: 'mL', comparator: '>=' }) as const;

describe('arithmetic on bounds', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    ['a difference', minus(other.id), KNOWN, [200, 200, 'true']],
    ['a difference with a local choice', minus({ parameter: 'urine.margin' }), KNOWN, [250, 250, 'true']],
    ['a difference with a constant', minus({ value: 400, unit: 'mL' }), KNOWN, [-100, -100, 'true']],
    [
      'a difference crosses the ends',
      minus(other.id),
      { [volume.id]: atLeast(300), [other.id]: mL(100) },
      [200, 4900, 'true', 'derived'],
    ],
    [
      'a difference with nothing supplied',
      minus(other.id),
      { [volume.id]: mL(300) },
      [-1700, 300, 'unknown', 'derived'],
    ],
    [
      'a difference clipped to its limits',
      minus(other.id, { limits: [0, 1000] }),
      { [volume.id]: mL(300) },
      [0, 300, 'unknown', 'derived'],
    ],
    [
      'a difference outside its limits',
      minus({ value: 400, unit: 'mL' }, { limits: [0, 1000] }),
      KNOWN,
      [0, 1000, 'unknown', 'impossible'],
    ],
    ['a sum', total, KNOWN, [450, 450, 'true']],
    [
      'a sum with one record known to be empty',
      total,
      { ...KNOWN, [other.id]: null },
      [350, 2350, 'false', 'derived'],
    ],
    ['a product', times, { ...KNOWN, [hours.id]: { value: 2, unit: 'h' } }, [600, 600, 'true']],
    ['a product with an unknown time', times, KNOWN, [0, 7200, 'unknown', 'derived']],
    ['nothing in an unknown time is nothing', times, { [volume.id]: mL(0) }, [0, 0, 'unknown']],
    [
      'a rate',
      rate(),
      { [volume.id]: mL(300), [weight.id]: { value: 60, unit: 'kg' }, [hours.id]: { value: 6, unit: 'h' } },
      [300 / 60 / 6, 300 / 60 / 6, 'true'],
    ],
    [
      'a rate rounded to its step',
      rate({ step: 0.1 }),
      { [volume.id]: mL(250), [weight.id]: { value: 60, unit: 'kg' }, [hours.id]: { value: 6, unit: 'h' } },
      [0.7, 0.7, 'true'],
    ],
    [
      'a rate in an unknown time may be any above',
      rate(),
      { [volume.id]: mL(480), [weight.id]: { value: 80, unit: 'kg' } },
      [0.25, Infinity, 'unknown', 'derived'],
    ],
    [
      'a share of nothing is open',
      share,
      { [volume.id]: mL(0), [other.id]: mL(10) },
      [0, Infinity, 'true', 'derived'],
    ],
    [
      'nothing as a share of nothing is open',
      share,
      { [volume.id]: mL(0), [other.id]: mL(0) },
      [0, Infinity, 'true', 'derived'],
    ],
    ['nothing as a share of something', share, { [volume.id]: mL(10), [other.id]: mL(0) }, [0, 0, 'true']],
  ])('%s', (_name, of, facts, expected) => {
    expect(readOne(of, OPERANDS, PARTS, { facts })).toEqual(expected);
  });
});

describe('what the check finds', () => {
  it.each<[string, Fact, string[]]>([
    ['nothing in a difference', minus(other.id), []],
    ['nothing in a rate', rate(), []],
    ['nothing in a product', times, []],
    [
      'a result that is no number',
      fact('urine.derived', { type: 'boolean', from: { sum: [volume.id, other.id] } }),
      ['', '/sum'],
    ],
    ['a sum of two units', number('mL', { sum: [volume.id, hours.id] }), ['/sum']],
    ['a difference in another unit', number('L', { difference: [volume.id, other.id] }), ['/difference']],
    ['a constant in another unit', minus({ value: 1, unit: 'L' }), ['/difference']],
    ['a local choice that is no number', minus({ parameter: 'urine.strict' }), ['/difference']],
    ['a ratio whose units do not join', number('mL/h', { ratio: [volume.id, weight.id] }), ['/ratio']],
    ['a product whose units do not join', number('mL', { product: [volume.id, hours.id] }), ['/product']],
    ['a product that may be negative', number('mL.mL', { product: [volume.id, change.id] }), ['/product/1']],
    [
      'a product with a negative constant',
      number('mL', { product: [volume.id, { value: -1, unit: '1' }] }),
      ['/product/1'],
    ],
    [
      'a ratio of the moment of the case',
      number('mL', { ratio: [volume.id, 'asOf'] }),
      ['/ratio', '/ratio/1'],
    ],
    ['a sum of instants', number('mL', { sum: [volume.id, inserted.id] }), ['/sum']],
    ['nothing where an operand is not known, which is found elsewhere', minus('urine.unheard-of'), []],
  ])('%s', (_name, of, expected) => {
    expect(faultsOf(of, OPERANDS, PARTS).map((fault) => fault.at)).toEqual(expected);
  });
});

describe('what to ask', () => {
  it.each<[string, Fact, Case['facts'], string[]]>([
    ['both volumes of a difference', minus(other.id), {}, [volume.id, other.id]],
    ['the one that is missing', minus(other.id), { [volume.id]: mL(300) }, [other.id]],
    ['never a local choice or a constant', minus({ parameter: 'urine.margin' }), KNOWN, []],
    ['what is known to a bound only', total, { ...KNOWN, [volume.id]: atLeast(300) }, [volume.id]],
    ['everything a rate lacks', rate(), { [weight.id]: { value: 60, unit: 'kg' } }, [volume.id, hours.id]],
    ['the factors of a product', times, {}, [volume.id, hours.id]],
  ])('%s', (_name, of, facts, expected) => {
    expect(asksOf(of, OPERANDS, PARTS, { facts })).toEqual(expected);
  });
});
