import type { Truth } from './truth.ts';
import type { World } from './world.ts';

export interface Range {
  readonly low: number;
  readonly high: number;
}

/** One entry of a list. */
export interface Entry {
  readonly world: World;
  /** Its start and end, as far as they are known; of an event they are the same. */
  readonly from: Range;
  readonly to: Range;
  readonly isEvent: boolean;
  /** Every time it should carry can be read. */
  readonly isTimed: boolean;
}

const covers = ({ from, to }: Entry, low: number, high: number) => from.high <= low && to.low >= high;
const touches = ({ from, to }: Entry, low: number, high: number) => from.low < high && to.high > low;

/** The stretches between all the moments at which an entry may begin or end, from one moment to another. */
function stretches(entries: readonly Entry[], from: number, to: number): [low: number, high: number][] {
  if (from >= to) return [];
  const edges = entries.flatMap((entry) => [entry.from.low, entry.from.high, entry.to.low, entry.to.high]);
  const cuts = [...new Set([from, ...edges.filter((edge) => edge > from && edge < to), to])];
  cuts.sort((a, b) => a - b);
  return cuts.slice(1).map((cut, index) => [cuts[index] as number, cut]);
}

/** Whether some time up to the end is covered by no entry; without a start, from the first entry on. */
export function uncovered(entries: readonly Entry[], start: number | undefined, end: number): boolean {
  const from = start ?? Math.min(end, ...entries.map((entry) => entry.from.high));
  return stretches(entries, from, end).some(
    ([low, high]) => !entries.some((entry) => covers(entry, low, high)),
  );
}

/**
 * The longest time without a break. Proven by entries that count and touch; possible wherever no entry that
 * does not count stands alone. Where two entries overlap and say different things, the time is open.
 */
export function longestRun(
  judged: readonly { readonly entry: Entry; readonly counts: Truth }[],
  start: Range,
  end: Range,
  unit: number,
): Range {
  const which = (...counts: Truth[]) =>
    judged.filter((one) => counts.includes(one.counts)).map(({ entry }) => entry);
  const [counting, mayCount, failing] = [which('true'), which('true', 'unknown'), which('false')];
  const longest = (isPart: (low: number, high: number) => boolean) => {
    let [best, from] = [0, start.low];
    for (const [low, high] of stretches(
      judged.map(({ entry }) => entry),
      start.low,
      end.high,
    )) {
      if (isPart(low, high)) best = Math.max(best, high - from);
      else from = high;
    }
    return best / unit;
  };
  return {
    low: longest(
      (low, high) =>
        counting.some((entry) => covers(entry, low, high)) &&
        !failing.some((entry) => touches(entry, low, high)),
    ),
    high: longest(
      (low, high) =>
        !failing.some((entry) => covers(entry, low, high)) ||
        mayCount.some((entry) => touches(entry, low, high)),
    ),
  };
}
