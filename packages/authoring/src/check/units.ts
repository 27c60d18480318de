/** Exponents of a joined unit such as `mL/kg/h`; `1` has none. */
function exponents(unit: string, sign: 1 | -1, into: Map<string, number>): void {
  unit.split('/').forEach((part, index) => {
    for (const factor of part.split('.')) {
      if (factor !== '1') into.set(factor, (into.get(factor) ?? 0) + (index === 0 ? sign : -sign));
    }
  });
}

/** Whether a unit equals those of the operands, multiplied or divided one after the other. */
export function unitsJoin(unit: string, operands: readonly string[], by: 'ratio' | 'product'): boolean {
  const left = new Map<string, number>();
  exponents(unit, -1, left);
  operands.forEach((operand, index) => {
    exponents(operand, by === 'ratio' && index > 0 ? -1 : 1, left);
  });
  return [...left.values()].every((exponent) => exponent === 0);
}

/** UCUM units of this field: dimension and factor to the dimension's first unit; `[Ch]` is a third of a millimetre. */
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

/** What a value would be in another unit; only ever a hint, a value is never converted silently. */
export function convert(value: number, from: string, to: string): number | undefined {
  const [source, target] = [UNITS[from], UNITS[to]];
  if (!source || !target || source[0] !== target[0]) return undefined;
  return Number(((value * source[1]) / target[1]).toPrecision(6));
}

export const TIME_UNITS: readonly string[] = ['s', 'min', 'h', 'd', 'wk'];
