import type { Fact } from '@dwellset/core';

const MS_PER_MINUTE = 60_000;
/** Minutes in the units that a time between two instants may have; a day is 24 hours. */
const MINUTES: Readonly<Record<string, number>> = { s: 1 / 60, min: 1, h: 60, d: 1440, wk: 10_080 };

/**
 * How near to a limit is "just" below or above it, on the scale on which the fact is compared: its step; a minute for
 * a time by the clock, a day for calendar days, else one in the last digit shown.
 */
export function resolutionOf(fact: Fact): number {
  if (fact.type === 'date-time') return MS_PER_MINUTE;
  if (fact.step !== undefined) return fact.step;
  if (fact.from && 'elapsed' in fact.from) return 1 / (MINUTES[fact.unit ?? 'min'] ?? 1);
  return fact.type === 'date' || (fact.from && 'calendarDays' in fact.from) ? 1 : 10 ** -(fact.decimals ?? 0);
}

/** The distance between two values that the fact can have; none where it has any value between its limits. */
export function gridOf(fact: Fact): number | undefined {
  if (fact.type === 'date' || (fact.from && 'calendarDays' in fact.from)) return 1;
  return fact.type === 'date-time' ? undefined : fact.step;
}

/** Multiples of a step such as 0.1 are no exact binary numbers: the nearest one that the core would read. */
export const onGrid = (count: number, grid: number): number => Number((count * grid).toPrecision(12));

/** Whether a fact can have exactly this value. */
export function isPossible(fact: Fact, value: number): boolean {
  const [low, high] = fact.limits ?? [-Infinity, Infinity];
  if (value < low || value > high) return false;
  const grid = gridOf(fact);
  return grid === undefined || onGrid(Math.round(value / grid), grid) === value;
}
