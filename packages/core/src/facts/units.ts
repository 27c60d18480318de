/**
 * UCUM units of this field: dimension and factor to the dimension's first unit. Only used to say what a value in
 * another unit would be; a value is never converted silently. `[Ch]` is a third of a millimetre (ISO 20696:2018,
 * 5.5.2), not `mm/[pi]` as older unit tables had it.
 */
const UNITS: Readonly<Record<string, readonly [dimension: string, factor: number]>> = {
  mL: ['volume', 1],
  cL: ['volume', 10],
  dL: ['volume', 100],
  L: ['volume', 1000],
  min: ['time', 1],
  s: ['time', 1 / 60],
  h: ['time', 60],
  d: ['time', 1440],
  wk: ['time', 10_080],
  g: ['mass', 1],
  mg: ['mass', 0.001],
  kg: ['mass', 1000],
  mm: ['length', 1],
  cm: ['length', 10],
  m: ['length', 1000],
  '[Ch]': ['length', 1 / 3],
  'umol/L': ['concentration', 1],
  'mmol/L': ['concentration', 1000],
  'mm[Hg]': ['pressure', 1],
  kPa: ['pressure', 7.500617],
};

/** What a value would be in another unit, rounded to 6 significant digits; nothing where the two do not convert. */
export function convert(value: number, from: string, to: string): number | undefined {
  const [source, target] = [UNITS[from], UNITS[to]];
  if (!source || !target || source[0] !== target[0]) return undefined;
  return Number(((value * source[1]) / target[1]).toPrecision(6));
}

/** Exponents of a joined unit such as `mL/kg/h`; `1` has none. */
function exponents(unit: string): Map<string, number> {
  const found = new Map<string, number>();
  unit.split('/').forEach((part, index) => {
    for (const factor of part.split('.')) {
      if (factor !== '1') found.set(factor, (found.get(factor) ?? 0) + (index === 0 ? 1 : -1));
    }
  });
  for (const [factor, exponent] of found) if (exponent === 0) found.delete(factor);
  return found;
}

/** Whether a fact's unit equals the units of the operands joined by division or multiplication. */
export function unitsJoin(unit: string, operands: readonly string[], by: 'ratio' | 'product'): boolean {
  const joined = new Map<string, number>();
  operands.forEach((operand, index) => {
    const sign = by === 'ratio' && index > 0 ? -1 : 1;
    for (const [factor, exponent] of exponents(operand)) {
      joined.set(factor, (joined.get(factor) ?? 0) + sign * exponent);
    }
  });
  for (const [factor, exponent] of joined) if (exponent === 0) joined.delete(factor);
  const wanted = exponents(unit);
  return (
    wanted.size === joined.size && [...wanted].every(([factor, exponent]) => joined.get(factor) === exponent)
  );
}
