import type { Derivation, Fact, Operand } from '../../release/fact.ts';
import type { Interval } from '../reading.ts';
import { unitsJoin } from '../units.ts';
import {
  allRecorded,
  type DerivationFault,
  type DerivationKind,
  type Dictionary,
  factsOf,
  inexact,
  interval,
  operandEnds,
  type Watch,
  type WatchInputs,
} from './kind.ts';

/** Zero times an open end is zero: no volume in an unknown time is still no volume. */
const times = (a: number, b: number): number => (a === 0 || b === 0 ? 0 : a * b);

const combine = {
  difference: ([a, b]: readonly Interval[]): Interval => interval(a!.low - b!.high, a!.high - b!.low),
  sum: (operands: readonly Interval[]): Interval =>
    operands.reduce((sofar, next) => interval(sofar.low + next.low, sofar.high + next.high)),
  /** Inputs are not negative: the check sees to their limits. */
  product: (operands: readonly Interval[]): Interval =>
    operands.reduce((sofar, next) => interval(times(sofar.low, next.low), times(sofar.high, next.high))),
  ratio: (operands: readonly Interval[]): Interval =>
    operands.reduce((sofar, next) =>
      interval(
        next.high === 0 ? 0 : sofar.low / next.high || 0,
        next.low === 0 ? Infinity : sofar.high / next.low,
      ),
    ),
};
type Arithmetic = keyof typeof combine;

const unitOf = (operand: Operand, dictionary: Dictionary): string | undefined => {
  if (typeof operand !== 'string') {
    if (!('parameter' in operand)) return operand.unit;
    const parameter = dictionary.parameter(operand.parameter);
    return parameter && (parameter.type === 'number' ? (parameter.unit ?? '1') : `(${parameter.type})`);
  }
  const fact = operand === 'asOf' ? undefined : dictionary.fact(operand);
  if (operand === 'asOf') return '(date-time)';
  return fact && (fact.type === 'number' ? (fact.unit ?? '1') : `(${fact.type})`);
};

function faults(
  name: Arithmetic,
  operands: readonly Operand[],
  fact: Fact,
  dictionary: Dictionary,
): DerivationFault[] {
  const units = operands.map((operand) => unitOf(operand, dictionary));
  if (units.some((unit) => unit === undefined)) return [];
  const known = units as string[];
  const unit = fact.unit ?? '1';
  const found: DerivationFault[] = [];
  if (fact.type !== 'number') found.push({ at: '', expected: 'a number', received: fact.type });
  const joins =
    name === 'ratio' || name === 'product'
      ? unitsJoin(unit, known, name)
      : known.every((operand) => operand === unit);
  if (!joins) {
    const sign = name === 'ratio' ? ' / ' : name === 'product' ? ' · ' : name === 'sum' ? ' + ' : ' - ';
    found.push({ at: `/${name}`, expected: unit, received: known.join(sign) });
  }
  if (name === 'ratio' || name === 'product') {
    operands.forEach((operand, index) => {
      const least =
        typeof operand === 'string'
          ? (dictionary.fact(operand)?.limits?.[0] ?? -1)
          : 'value' in operand
            ? operand.value
            : 0;
      if (least < 0)
        found.push({
          at: `/${name}/${index}`,
          expected: 'limits from 0',
          received: typeof operand === 'string' ? operand : String(least),
        });
    });
  }
  return found;
}

/** Cuts each operand must watch so that the result's crossing of `cut` is not missed, the others standing still. */
function operandCuts(name: Arithmetic, cut: number, index: number, all: readonly Interval[]): number[] {
  const rest = all.filter((_, other) => other !== index);
  const other =
    rest.length === 1 ? rest[0]! : combine[name === 'ratio' || name === 'product' ? 'product' : 'sum'](rest);
  const corners = [other.low, other.high];
  switch (name) {
    case 'sum':
      return corners.map((end) => cut - end);
    case 'difference':
      return corners.map((end) => (index === 0 ? cut + end : end - cut));
    case 'product':
      return corners.map((end) => cut / end);
    case 'ratio': {
      if (index === 0) return corners.map((end) => cut * end);
      const divisors = all
        .filter((_, at) => at !== index && at !== 0)
        .reduce((sofar, next) => combine.product([sofar, next]), interval(1, 1));
      return [all[0]!.low, all[0]!.high].flatMap((top) =>
        [divisors.low, divisors.high].map((end) => top / end / cut),
      );
    }
  }
}

function watchOperands(
  name: Arithmetic,
  operands: readonly Operand[],
  fact: Fact,
  cuts: readonly number[],
  inputs: WatchInputs,
): Watch {
  const all = operands.map((operand) => operandEnds(operand, inputs));
  const half = (fact.step ?? 0) / 2;
  const shifted = half === 0 ? cuts : cuts.flatMap((cut) => [cut - half, cut + half]);
  const pass = operands.flatMap((operand, index) =>
    typeof operand === 'string' && operand !== 'asOf'
      ? [
          [
            operand,
            shifted.flatMap((cut) => operandCuts(name, cut, index, all)).filter(Number.isFinite),
          ] as const,
        ]
      : [],
  );
  return { instants: [], pass };
}

function arithmetic<N extends Arithmetic>(
  name: N,
): DerivationKind<Extract<Derivation, Readonly<Record<N, unknown>>>> {
  type K = Extract<Derivation, Readonly<Record<N, unknown>>>;
  const operandsOf = (derivation: K): readonly Operand[] =>
    (derivation as Readonly<Record<N, readonly Operand[]>>)[name];
  return {
    facts: (derivation) => factsOf(operandsOf(derivation)),
    check: (derivation, fact, dictionary) => faults(name, operandsOf(derivation), fact, dictionary),
    evaluate: (derivation, _fact, inputs) => ({
      bounds: combine[name](
        operandsOf(derivation).map((operand) => {
          const ends = operandEnds(operand, inputs);
          const mayBeNegative = name === 'sum' || name === 'difference';
          return mayBeNegative ? ends : interval(Math.max(0, ends.low), Math.max(0, ends.high));
        }),
      ),
      recorded: allRecorded(operandsOf(derivation), inputs),
    }),
    asks: (derivation, inputs) => inexact(factsOf(operandsOf(derivation)), inputs),
    watch: (derivation, fact, cuts, inputs) =>
      watchOperands(name, operandsOf(derivation), fact, cuts, inputs),
  };
}

export const difference = arithmetic('difference');
export const sum = arithmetic('sum');
export const product = arithmetic('product');
/** The first operand divided by each of the others; a rate is a ratio. */
export const ratio = arithmetic('ratio');
