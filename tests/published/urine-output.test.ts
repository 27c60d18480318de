import type { Case, Fact } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { base, endsOf } from './facts.ts';

/**
 * KDIGO clinical practice guideline for acute kidney injury, 2012, staging table (known as reported): stage 1 below
 * 0.5 mL/kg/h for 6 to 12 h, stage 2 for 12 h or more, stage 3 below 0.3 for 24 h or more. The worked figures are
 * computed from it.
 */
const FACTS: readonly Fact[] = [
  { ...base, id: 'urine.volume', type: 'number', unit: 'mL', limits: [0, 20_000] },
  { ...base, id: 'patient.weight', type: 'number', unit: 'kg', limits: [0.3, 350] },
  { ...base, id: 'urine.hours', type: 'number', unit: 'h', limits: [0, 100] },
  {
    ...base,
    id: 'urine.rate',
    type: 'number',
    unit: 'mL/kg/h',
    from: { ratio: ['urine.volume', 'patient.weight', 'urine.hours'] },
  },
];

const rate = (volume: number | undefined, weight: number, hours: number) => {
  const patient: Case = {
    asOf: '2026-11-25T09:00:00Z',
    timeZone: 'Europe/London',
    facts: {
      ...(volume === undefined ? {} : { 'urine.volume': { value: volume, unit: 'mL' } }),
      'patient.weight': { value: weight, unit: 'kg' },
      'urine.hours': { value: hours, unit: 'h' },
    },
  };
  return endsOf(FACTS, 'urine.rate', patient);
};

describe('urine output per weight and hour', () => {
  it.each([
    ['72 kg, one hour at the floor', 36, 72, 1, 0.5],
    ['72 kg, 175 mL in 6 h', 175, 72, 6, 0.405],
    ['72 kg, 350 mL in 12 h', 350, 72, 12, 0.405],
    ['72 kg, 500 mL in 24 h', 500, 72, 24, 0.289],
    ['72 kg, the stage 3 limit of 518.4 mL in 24 h', 518.4, 72, 24, 0.3],
    ['70 kg, 210 mL in 6 h', 210, 70, 6, 0.5],
    ['70 kg, 504 mL in 24 h', 504, 70, 24, 0.3],
  ])('%s', (_name, volume, weight, hours, expected) => {
    const { low, high } = rate(volume, weight, hours);
    expect(low).toBe(high);
    expect(low).toBeCloseTo(expected, 3);
  });

  it('does not call exactly 0.5 mL/kg/h below 0.5', () => {
    expect(rate(216, 72, 6).low).toBeGreaterThanOrEqual(0.5);
  });

  it('does not take a volume that nobody measured for zero', () => {
    const { low, high } = rate(undefined, 72, 6);
    expect(low).toBe(0);
    expect(high).toBeGreaterThan(0.5);
  });
});
