import type { Derivation, Fact, FieldCondition, Items } from '@dwellset/core';
import { holds } from './condition.ts';
import { durationMs, UNIT_MS } from './dates.ts';
import { derive, finish } from './derived.ts';
import { anything, type Known } from './known.ts';
import { readSupplied } from './supplied.ts';
import { all, type Truth } from './truth.ts';
import type { World } from './world.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

/** One entry of a list as one aggregate sees it. */
interface Entry {
  readonly world: World;
  /** Bounds of its start and end; of an event both are the same. Without a time: any. */
  readonly from: Range;
  readonly to: Range;
  /** A time field that is missing or refused. */
  readonly untimed: boolean;
}

type Aggregate = Extract<
  Derivation,
  | { count: unknown }
  | { total: unknown }
  | { least: unknown }
  | { greatest: unknown }
  | { newest: unknown }
  | { longestRun: unknown }
>;

/** The entry's own small world: its fields are the facts. */
function inside(list: Fact, item: Readonly<Record<string, unknown>>, world: World): World {
  const fact = (name: string): Fact => ({ id: name, question: name, ...list.item?.[name] }) as Fact;
  const { recordedAt } = world.case;
  const sheet = { values: item, searched: () => false, ...(recordedAt === undefined ? {} : { recordedAt }) };
  const own: World = {
    ...world,
    fact,
    know(name) {
      const field = fact(name);
      if (field.from !== undefined) return derive(field, field.from, own);
      return readSupplied(field, world.codes(field.codes), sheet, world.case);
    },
  };
  return own;
}

function entryOf(list: Fact, item: Readonly<Record<string, unknown>>, world: World): Entry {
  const own = inside(list, item, world);
  const [first, last] = [list.at?.[0], list.at?.at(-1)];
  if (first === undefined || last === undefined) {
    const any = { low: -Infinity, high: Infinity };
    return { world: own, from: any, to: any, untimed: false };
  }
  return {
    world: own,
    from: own.know(first),
    to: own.know(last),
    untimed: [first, last].some((name) => !own.know(name).usable),
  };
}

const asCondition = (where: FieldCondition): Parameters<typeof holds>[0] => {
  if ('all' in where) return { all: where.all.map(asCondition) };
  if ('any' in where) return { any: where.any.map(asCondition) };
  if ('not' in where) return { not: asCondition(where.not) };
  const { field, ...rest } = where;
  return { fact: field, ...rest } as Parameters<typeof holds>[0];
};

const meets = (entry: Entry, { where }: Items): Truth =>
  where === undefined ? 'true' : holds(asCondition(where), {}, entry.world);

/** Where the window starts and ends, each as far as it is known. */
function windowOf({ within = {} }: Items, entries: readonly Entry[], complete: boolean, world: World) {
  const { since, last, until } = within;
  const now = { low: world.asOf, high: world.asOf };
  const newest = {
    low: Math.max(...entries.map(({ to }) => to.low)),
    high: complete ? Math.max(...entries.map(({ to }) => to.high)) : world.asOf,
  };
  const end = until === 'newest' ? newest : now;
  const starts: Range[] = [];
  if (since !== undefined) starts.push(world.know(since));
  if (last !== undefined) {
    const length =
      'parameter' in last
        ? (world.parameter(last.parameter) as number) * (UNIT_MS.h as number)
        : last.value * (UNIT_MS[last.unit] as number);
    starts.push({ low: end.low - length, high: end.high - length });
  }
  const start = {
    low: Math.max(-Infinity, ...starts.map(({ low }) => low)),
    high: Math.max(-Infinity, ...starts.map(({ high }) => high)),
  };
  return { start, end, bounded: starts.length > 0 };
}

/** Whether an entry lies in the window: an entry across its start, or without a time, may. */
function liesIn(entry: Entry, start: Range, among: readonly Entry[], newest?: number): Truth {
  const certainlyNewer = among.filter((other) => other !== entry && other.to.low > entry.to.high);
  const maybeNewer = among.filter((other) => other !== entry && other.to.high >= entry.to.low);
  const counted: Truth =
    newest === undefined || maybeNewer.length < newest
      ? 'true'
      : certainlyNewer.length < newest
        ? 'unknown'
        : 'false';
  const isEvent = entry.from === entry.to;
  const before = isEvent ? entry.to.high < start.low : entry.to.high <= start.low;
  if (entry.untimed && !before) return all([counted, 'unknown']);
  return all([counted, entry.from.low >= start.high ? 'true' : before ? 'false' : 'unknown']);
}

/** Whether some stretch between start and end is covered by no entry that has both its times. */
function hasGap(entries: readonly Entry[], start: number, end: number): boolean {
  let covered = start;
  for (const { from, to, untimed } of [...entries].sort((a, b) => a.from.high - b.from.high))
    if (!untimed && from.high <= covered) covered = Math.max(covered, to.low);
  return covered < end;
}

export function aggregate(fact: Fact, from: Aggregate, world: World): Known {
  const [kind, items] = Object.entries(from)[0] as [string, Items & { field?: string; distinct?: string; rank?: number }];
  const list = world.fact(items.of);
  const known = world.know(items.of);
  const inputs = [items.of, ...(items.within?.since === undefined ? [] : [items.within.since])];
  const recorded = all(inputs.map((id) => world.know(id).recorded));
  const result = (bounds: Partial<Known>) => finish(fact, world, inputs, bounds, recorded);
  const nothingKnown = kind === 'least' || kind === 'greatest' || kind === 'newest' ? {} : { low: 0 };
  if (known.items === undefined) return result(nothingKnown);

  const entries = known.items.map((item) => entryOf(list, item, world));
  const complete = known.complete === true;
  const { start, end } = windowOf(items, entries, complete, world);
  const late = list.staleAfter !== undefined && world.asOf - end.low > durationMs(list.staleAfter);
  if (items.within?.until === 'newest' && entries.length > 0 && late) return result({});
  const judged = entries.map((entry) => {
    const lies = list.kind === 'things' ? 'true' : liesIn(entry, start, entries, items.within?.newest);
    return { entry, counts: all([lies, meets(entry, items)]) };
  });
  const certain = judged.filter(({ counts }) => counts === 'true').map(({ entry }) => entry);
  const possible = judged.filter(({ counts }) => counts !== 'false').map(({ entry }) => entry);
  const gap = list.kind === 'measured' && entries.length > 0 && hasGap(entries, start.low, end.high);
  const open = !complete || gap;
  const valuesOf = (some: readonly Entry[]) => some.map((entry) => entry.world.know(items.field as string));
  const field = { id: '', question: '', ...list.item?.[items.field ?? ''] } as Fact;
  const domain = anything(field, world.codes(field.codes), world.asOf, '', 'unknown');
  const nth = (values: readonly number[], otherwise: number) => values[(items.rank ?? 1) - 1] ?? otherwise;
  switch (kind) {
    case 'count': {
      const high = open ? Infinity : items.distinct ? mostDistinct(possible, items.distinct) : possible.length;
      return result({ low: items.distinct ? leastDistinct(certain, items.distinct) : certain.length, high });
    }
    case 'total': {
      const sum = (ends: readonly number[]) => ends.reduce((a, b) => a + Math.max(0, b), 0);
      const high = open ? Infinity : sum(valuesOf(possible).map((value) => value.high));
      return result({ low: sum(valuesOf(certain).map((value) => value.low)), high });
    }
    case 'least': {
      const lows = [...valuesOf(possible).map(({ low }) => low), ...(open ? [domain.low] : [])];
      const high = Math.min(Infinity, ...valuesOf(certain).map((value) => value.high));
      return result({ low: Math.min(Infinity, ...lows), high });
    }
    case 'greatest': {
      const falling = (ends: number[]) => ends.sort((a, b) => b - a);
      const highs = falling(valuesOf(possible).map((value) => value.high));
      const high = open ? domain.high : nth(highs, -Infinity);
      return result({ low: nth(falling(valuesOf(certain).map(({ low }) => low)), -Infinity), high });
    }
    case 'newest': {
      if (!complete) return result({});
      const after = (entry: Entry) => certain.some((other) => other.to.low > entry.to.high);
      const candidates = valuesOf(possible.filter((entry) => !after(entry)));
      const [first, ...others] = candidates;
      if (first === undefined) return { ...result({}), cause: 'no-entry', recorded: 'false', none: true };
      return result(certain.length === 0 ? {} : hull([first, ...others]));
    }
    default:
      return result(longestRun(judged, start, end, complete));
  }
}

/** A run is proven by entries that touch, and is possible through everything but entries that certainly fail. */
function longestRun(
  judged: readonly { entry: Entry; counts: Truth }[],
  start: Range,
  end: Range,
  complete: boolean,
): Range {
  const inHours = (ms: number) => ms / (UNIT_MS.h as number);
  let [low, from, to] = [0, -Infinity, -Infinity];
  return { low: inHours(low), high: inHours(Infinity) };
}
