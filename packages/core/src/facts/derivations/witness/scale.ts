import type { Fact } from '../../../release/fact.ts';
import { roundToStep } from '../../rounding.ts';
import { localDay } from '../../time.ts';

/**
 * The exact values a number, instant or day can take, by rising index; without a step the index is the value itself.
 * A number without limits is looked for within ±1e15, a day or instant in the years 1 to 9999.
 */
export interface Scale {
  readonly first: number;
  readonly last: number;
  readonly stepped: boolean;
  value(index: number): number;
  /** The index whose value is nearest to a number. */
  nearest(value: number): number;
}

const FAR = 1e15;
const FIRST_DAY = -719_162;
const LAST_DAY = 2_932_896;
const FIRST_INSTANT = -62_135_596_800_000;

const range = (fact: Fact, asOf: number): readonly [number, number, number | undefined] => {
  if (fact.type === 'date-time') return [FIRST_INSTANT, asOf, 1];
  if (fact.type === 'date') return [FIRST_DAY, LAST_DAY, 1];
  // Indices stay exact whole numbers.
  const far = Math.min(FAR, (fact.step ?? 1) * 2 ** 52);
  return [Math.max(fact.limits?.[0] ?? -far, -far), Math.min(fact.limits?.[1] ?? far, far), fact.step];
};

export function scaleOf(fact: Fact, asOf: number, withoutZero: boolean): Scale | undefined {
  const [low, high, step] = range(fact, asOf);
  const value = (index: number): number => (step === undefined ? index : roundToStep(index * step, step));
  const nearest = (number: number): number => (step === undefined ? number : Math.round(number / step));
  let [first, last] = [nearest(low), nearest(high)];
  if (value(first) < low) first += 1;
  if (value(last) > high) last -= 1;
  // Dividing by nothing gives no exact ratio.
  if (withoutZero && first === 0) first = step === undefined ? Number.MIN_VALUE : 1;
  return first > last ? undefined : { first, last, stepped: step !== undefined, value, nearest };
}

/** Values that make readable examples, tried first. */
export const plainValues = (fact: Fact, target: number, asOf: number, zone: string): number[] =>
  fact.type === 'date-time'
    ? [asOf, target]
    : fact.type === 'date'
      ? [localDay(asOf, zone), target]
      : [target, 1, 0];

/**
 * Where a test that holds from some index on begins to hold: the last index at which it does not, and the first at
 * which it does; both may lie just outside the indices given.
 */
export function turn(
  scale: Scale,
  from: number,
  to: number,
  holds: (index: number) => boolean,
): { readonly before: number | undefined; readonly start: number | undefined } {
  if (holds(from)) return { before: undefined, start: from };
  if (!holds(to)) return { before: to, start: undefined };
  let [before, start] = [from, to];
  for (;;) {
    const middle = before / 2 + start / 2;
    const next = scale.stepped ? Math.floor(middle) : middle;
    if (next <= before || next >= start) return { before, start };
    if (holds(next)) start = next;
    else before = next;
  }
}
