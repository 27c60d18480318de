import type { Constant } from '@dwellset/core';
import { onGrid } from '../coverage/resolution.ts';
import type { Described } from './leafEdits.ts';

const MS_PER_DAY = 86_400_000;

/** A number, day or instant moved by steps. Dates are ISO 8601, as conditions state them. */
function moved({ type, step, value }: Described, by: number): Constant | undefined {
  if (typeof value === 'number') return Number((value + by * step).toPrecision(12));
  if (typeof value !== 'string') return undefined;
  const instant = Date.parse(value);
  if (Number.isNaN(instant)) return undefined;
  const iso = (at: number): string => new Date(at).toISOString();
  return type === 'date'
    ? iso(instant + by * MS_PER_DAY).slice(0, 10)
    : iso(instant + by * step).replace('.000Z', '+00:00');
}

const nextOf = (codes: readonly string[], code: string, taken: readonly string[]): string | undefined => {
  const from = codes.indexOf(code) + 1;
  return [...codes.slice(from), ...codes.slice(0, from)].find((other) => !taken.includes(other));
};

/** Values that an author might have put instead: a limit one step off, a code left out or taken for its neighbour. */
export function constantEdits(described: Described): Constant[] {
  const { value, codes, type } = described;
  if (typeof value === 'number' || type === 'date' || type === 'date-time') {
    return [-1, 1].flatMap((by) => moved(described, by) ?? []);
  }
  if (typeof value === 'boolean') return [!value];
  if (typeof value === 'string') return [nextOf(codes, value, [value]) ?? []].flat();
  if (value === undefined) return [];
  const without = value.length < 2 ? [] : value.map((code) => value.filter((other) => other !== code));
  const [first, ...rest] = value;
  const other = first === undefined ? undefined : nextOf(codes, first, value);
  return [...without, ...(other === undefined ? [] : [[other, ...rest]])];
}

/** The step between two values of a number, as its document states it. */
export const stepOf = (of: { readonly step?: number; readonly decimals?: number }): number =>
  of.step ?? onGrid(1, 10 ** -(of.decimals ?? 0));
