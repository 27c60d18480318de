import ucum from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { convert } from '../../packages/core/src/facts/units.ts';

/**
 * ISO 20696:2018, 5.5.2 (known as reported): Ch is three times the outer diameter in mm; the stated diameter is
 * rounded up to the next 0.1 mm; tolerance 0.33 mm. Printed sizes: two suppliers' charts (reported) and a nurses'
 * booklet (read), which rounds to the nearest 0.1 mm instead.
 */
const SIZES = [
  { ch: 6, mm: 2.0, roundedUp: 2.0 },
  { ch: 8, mm: 2.67, roundedUp: 2.7 },
  { ch: 10, mm: 3.33, roundedUp: 3.4, booklet: 3.3 },
  { ch: 12, mm: 4.0, roundedUp: 4.0 },
  { ch: 14, mm: 4.67, roundedUp: 4.7 },
  { ch: 16, mm: 5.33, roundedUp: 5.4, booklet: 5.3 },
  { ch: 18, mm: 6.0, roundedUp: 6.0 },
  { ch: 20, mm: 6.67, roundedUp: 6.7 },
  { ch: 22, mm: 7.33, roundedUp: 7.4 },
  { ch: 24, mm: 8.0, roundedUp: 8.0 },
  { ch: 26, mm: 8.67, roundedUp: 8.7 },
];
const TOLERANCE_MM = 0.33;

const diameter = (ch: number): number => convert(ch, '[Ch]', 'mm') ?? Number.NaN;
const roundUp = (mm: number): number => Math.ceil(mm * 10 - 1e-6) / 10;

describe('Charrière scale', () => {
  it.each(SIZES)('$ch Ch is $mm mm across, stated as $roundedUp mm', ({ ch, mm, roundedUp, booklet }) => {
    expect(diameter(ch)).toBeCloseTo(mm, 2);
    expect(roundUp(diameter(ch))).toBe(roundedUp);
    if (booklet !== undefined) expect(Math.abs(booklet - roundedUp)).toBeLessThanOrEqual(0.1 + 1e-9);
  });

  it('lets neighbouring even sizes touch within the tolerance, and not overlap', () => {
    const [twelve, fourteen] = [diameter(12), diameter(14)];
    expect(twelve - TOLERANCE_MM).toBeCloseTo(3.67, 2);
    expect(twelve + TOLERANCE_MM).toBeCloseTo(4.33, 2);
    expect(twelve + TOLERANCE_MM).toBeLessThanOrEqual(fourteen - TOLERANCE_MM + 0.01);
  });
});

describe('conversion hints against a UCUM reference library', () => {
  const units = ucum.UcumLhcUtils.getInstance();
  const pairs: [number, string, string][] = [
    [1.2, 'L', 'mL'],
    [90, 'min', 'h'],
    [14, 'd', 'wk'],
    [36, 'h', 'd'],
    [72_500, 'g', 'kg'],
    [250, 'mg', 'g'],
    [26, 'cm', 'mm'],
    [16, '[Ch]', 'mm'],
    [4.5, 'mm', '[Ch]'],
    [16, 'kPa', 'mm[Hg]'],
    [0.12, 'mmol/L', 'umol/L'],
  ];

  it.each(pairs)('%d %s in %s', (value, from, to) => {
    const reference = units.convertUnitTo(from, value, to).toVal;
    expect(reference).toBeTypeOf('number');
    expect(convert(value, from, to)).toBeCloseTo(reference as number, 3);
  });

  it('does not convert across dimensions', () => {
    expect(convert(1, 'mL', 'h')).toBeUndefined();
    expect(units.convertUnitTo('mL', 1, 'h').status).not.toBe('succeeded');
  });
});
