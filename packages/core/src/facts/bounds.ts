import { interval } from './derivations/kind.ts';
import { type Bounds, isExact, type Reading } from './reading.ts';
import { roundToStep } from './rounding.ts';
import { not, UNKNOWN } from './truth.ts';

/** Rounds the ends to a step and keeps to a domain; nothing where the two have no value in common. */
export function clip(
  bounds: Bounds,
  whole: Bounds,
  step: number | undefined,
  mayBeEmpty = false,
): Bounds | undefined {
  if (bounds.kind !== 'interval' || whole.kind !== 'interval') return bounds;
  const low = roundToStep(bounds.low, step);
  const high = bounds.high === bounds.low ? low : roundToStep(bounds.high, step);
  // Of no items the least is more, and the greatest less, than any number.
  const beyond = (end: number) => mayBeEmpty && !Number.isFinite(end);
  if ((high < whole.low && !beyond(high)) || (low > whole.high && !beyond(low))) return undefined;
  return interval(
    beyond(low) ? low : Math.max(low, whole.low),
    beyond(high) ? high : Math.min(high, whole.high),
  );
}

/** What both allow: a statement in wider bounds takes nothing away from what is known. */
export function narrowed(supplied: Reading, computed: Bounds): Reading {
  const bounds = meet(supplied.bounds, computed);
  const { cause, ...known } = supplied;
  return { ...known, bounds, ...(isExact(bounds) ? {} : { cause: cause ?? 'within-bounds' }) };
}

function meet(a: Bounds, b: Bounds): Bounds {
  if (a.kind === 'interval' && b.kind === 'interval') {
    return interval(Math.max(a.low, b.low), Math.min(a.high, b.high));
  }
  if (a.kind === 'possible' && b.kind === 'possible') {
    return { kind: 'possible', possible: a.possible.filter((code) => b.possible.includes(code)) };
  }
  return a;
}

/** No value is possible under both. */
export function disjoint(a: Bounds, b: Bounds): boolean {
  if (a.kind === 'interval' && b.kind === 'interval') return a.high < b.low || b.high < a.low;
  if (a.kind === 'possible' && b.kind === 'possible')
    return !a.possible.some((code) => b.possible.includes(code));
  if (a.kind === 'answers' && b.kind === 'answers') {
    return [...a.answers].some(([code, answer]) => answer !== UNKNOWN && b.answers.get(code) === not(answer));
  }
  return a.kind === 'text' && b.kind === 'text' && b.text !== undefined && a.text !== b.text;
}
