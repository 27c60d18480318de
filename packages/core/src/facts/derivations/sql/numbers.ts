import type { Fact, Operand } from '../../../release/fact.ts';
import { MS_PER_UNIT } from '../../time.ts';
import { factsOf } from '../kind.ts';
import type { DerivationOf } from '../kinds.ts';
import { any, bitAnd, column, type Ends, either, literal, type Printed, type SqlNames } from './print.ts';

const ends = (operand: Operand, names: SqlNames): Ends => {
  if (typeof operand === 'string') return { low: column(operand, 'low'), high: column(operand, 'high') };
  const value = 'parameter' in operand ? Number(names.parameter(operand.parameter)) : operand.value;
  return { low: literal(value), high: literal(value) };
};

/** Recorded where everything it reads is. */
const allRecorded = (operands: readonly Operand[]): string => {
  const facts = factsOf(operands);
  return facts.length === 0 ? '3' : bitAnd(facts.map((id) => column(id, 'recorded')));
};

export function elapsed({ elapsed: { from, to } }: DerivationOf<'elapsed'>, fact: Fact): Printed {
  const unit = literal(MS_PER_UNIT[fact.unit ?? 'h'] ?? 1);
  const between = (late: string, early: string): string => `((${late}) - (${early})) / ${unit}`;
  return {
    ends: {
      low: between(column(to, 'low'), column(from, 'high')),
      high: between(column(to, 'high'), column(from, 'low')),
    },
    recorded: allRecorded([from, to]),
  };
}

export function calendarDays(
  { calendarDays: { from, to } }: DerivationOf<'calendarDays'>,
  _fact: Fact,
  names: SqlNames,
): Printed {
  const day = (operand: string, end: 'low' | 'high'): string => {
    const isDay = operand !== 'asOf' && names.fact(operand).type === 'date';
    return column(operand, isDay ? end : `day_${end}`);
  };
  return {
    ends: {
      low: `(${day(to, 'low')} - ${day(from, 'high')})`,
      high: `(${day(to, 'high')} - ${day(from, 'low')})`,
    },
    recorded: allRecorded([from, to]),
  };
}

/** The hour is there only where the instant is exact. */
export function localHour({ localHour: { at } }: DerivationOf<'localHour'>): Printed {
  const hour = column(at, 'hour');
  return {
    ends: { low: `coalesce(${hour}, 0.0)`, high: `coalesce(${hour}, 24.0)` },
    recorded: allRecorded([at]),
  };
}

export function difference(
  { difference }: DerivationOf<'difference'>,
  _fact: Fact,
  names: SqlNames,
): Printed {
  const [a, b] = [ends(difference[0], names), ends(difference[1], names)];
  return {
    ends: { low: `(${a.low} - ${b.high})`, high: `(${a.high} - ${b.low})` },
    recorded: allRecorded(difference),
  };
}

export function sum({ sum }: DerivationOf<'sum'>, _fact: Fact, names: SqlNames): Printed {
  const total = (end: keyof Ends): string =>
    `(${sum.map((operand) => ends(operand, names)[end]).join(' + ')})`;
  return { ends: { low: total('low'), high: total('high') }, recorded: allRecorded(sum) };
}

const anyZero = (values: readonly string[]): string => any(values.map((value) => `${value} = 0`));

/** Products and ratios are of amounts: what may be less than nothing counts as nothing. */
const notNegative = ({ low, high }: Ends): Ends => ({ low: `max(0, ${low})`, high: `max(0, ${high})` });

/** Zero times an open end is zero, where SQL would have no number. */
export function product({ product }: DerivationOf<'product'>, _fact: Fact, names: SqlNames): Printed {
  const all = (end: keyof Ends): string => {
    const values = product.map((operand) => notNegative(ends(operand, names))[end]);
    return either(anyZero(values), '0.0', `(${values.join(' * ')})`);
  };
  return { ends: { low: all('low'), high: all('high') }, recorded: allRecorded(product) };
}

/** A divisor that may be zero opens the ratio upwards; one that is zero says nothing of it. */
export function ratio({ ratio }: DerivationOf<'ratio'>, _fact: Fact, names: SqlNames): Printed {
  const [top, ...divisors] = ratio.map((operand) => notNegative(ends(operand, names))) as [Ends, ...Ends[]];
  const over = (end: keyof Ends, by: keyof Ends, atZero: string): string => {
    const below = divisors.map((divisor) => divisor[by]);
    if (below.length === 0) return top[end];
    return either(anyZero(below), atZero, `1.0 * ${[top[end], ...below].join(' / ')}`);
  };
  return {
    ends: { low: over('low', 'high', '0.0'), high: over('high', 'low', '9e999') },
    recorded: allRecorded(ratio),
  };
}
