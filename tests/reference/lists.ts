import type { Derivation, Fact, FieldCondition, Items } from '@dwellset/core';
import { holds } from './condition.ts';
import { durationMs, UNIT_MS } from './dates.ts';
import { derive, finish, hull } from './derived.ts';
import { exact, type Known } from './known.ts';
import { type Entry, longestRun, type Range, uncovered } from './runs.ts';
import { readSupplied } from './supplied.ts';
import { all, type Truth } from './truth.ts';
import type { World } from './world.ts';

type Body = Items & { readonly field?: string; readonly distinct?: string; readonly rank?: number };
const NAMES = ['count', 'total', 'least', 'greatest', 'newest', 'longestRun'] as const;
type Name = (typeof NAMES)[number];

export type Aggregate = Extract<Derivation, { [One in Name]: Readonly<Record<One, unknown>> }[Name]>;
export const isAggregate = (from: Derivation): from is Aggregate => NAMES.some((name) => name in from);

/** An entry's own small world: its fields are the facts. */
function inside(list: Fact, item: Readonly<Record<string, unknown>>, world: World): World {
  const fact = (name: string): Fact => ({ id: name, question: name, ...list.item?.[name] }) as Fact;
  const { recordedAt } = world.case;
  const sheet = { values: item, searched: () => false, ...(recordedAt === undefined ? {} : { recordedAt }) };
  const own: World = {
    ...world,
    fact,
    know(name) {
      const field = fact(name);
      return field.from === undefined
        ? readSupplied(field, world.codes(field.codes), sheet, world.case)
        : derive(field, field.from, own);
    },
  };
  return own;
}

function entryOf(list: Fact, item: Readonly<Record<string, unknown>>, world: World): Entry {
  const own = inside(list, item, world);
  const times = (list.at ?? []).map((name) => own.know(name));
  const always = { low: -Infinity, high: Infinity };
  return {
    world: own,
    from: times[0] ?? always,
    to: times.at(-1) ?? always,
    isEvent: times.length === 1,
    isTimed: times.every((time) => time.recorded === 'true'),
  };
}

/** Whether a list leaves nothing open: all entries are there and every field of each can be read. */
export function withCause(list: Fact, known: Known, world: World): Known {
  if (!known.usable) return known;
  const isRead = (known.items ?? []).every((item) => {
    const own = inside(list, item, world);
    return Object.keys(list.item ?? {}).every((name) => own.know(name).cause === undefined);
  });
  const { cause: _, ...settled } = { ...known, isRead };
  return exact(list, settled) ? settled : { ...settled, cause: 'within-bounds' };
}

function onFields(where: FieldCondition): Parameters<typeof holds>[0] {
  if ('all' in where) return { all: where.all.map(onFields) };
  if ('any' in where) return { any: where.any.map(onFields) };
  if ('not' in where) return { not: onFields(where.not) };
  const { field, ...test } = where;
  return { fact: field, ...test } as Parameters<typeof holds>[0];
}

const meets = ({ world }: Entry, { where }: Items): Truth =>
  where === undefined ? 'true' : holds(onFields(where), {}, world);

/** Where the window may start and end. An entry without a time, or one that nobody gave, may be the newest. */
function windowOf(
  { within }: Items,
  entries: readonly Entry[],
  isComplete: boolean,
  world: World,
): [start: Range, end: Range] {
  const ends = entries.map(({ to }) => to);
  const newest = {
    low: Math.max(...ends.map(({ low }) => low)),
    high: isComplete ? Math.max(...ends.map(({ high }) => high)) : world.asOf,
  };
  const now = { low: world.asOf, high: world.asOf };
  const end = within?.until === 'newest' && entries.length > 0 ? newest : now;
  const last = within?.last;
  const length =
    last === undefined
      ? Infinity
      : 'parameter' in last
        ? (world.parameter(last.parameter) as number) * (UNIT_MS.h as number)
        : last.value * (UNIT_MS[last.unit] as number);
  const since = within?.since === undefined ? { low: -Infinity, high: -Infinity } : world.know(within.since);
  const start = {
    low: Math.max(since.low, end.low - length),
    high: Math.max(since.high, end.high - length),
  };
  return [start, end];
}

/** Whether an entry lies in the window: one that lies across its start, or has no time, may. */
function liesIn(entry: Entry, start: Range): Truth {
  const { from, to, isEvent, isTimed } = entry;
  if (to.high < start.low || (!isEvent && to.high <= start.low && from.high < start.low)) return 'false';
  return isTimed && from.low >= start.high ? 'true' : 'unknown';
}

/** Of two that ended at the same moment either may be called the newer one. */
function isAmongNewest(entry: Entry, entries: readonly Entry[], most: number, isComplete: boolean): Truth {
  const others = entries.filter((other) => other !== entry);
  const newer = others.filter(({ to }) => to.low > entry.to.high).length;
  const maybeNewer = others.filter(({ to }) => to.high >= entry.to.low).length;
  if (newer >= most) return 'false';
  return isComplete && maybeNewer < most ? 'true' : 'unknown';
}

export function aggregate(fact: Fact, from: Aggregate, world: World): Known {
  const [kind, body] = Object.entries(from)[0] as unknown as [string, Body];
  const { of, within, field = '' } = body;
  const list = world.fact(of);
  const { items = [], isComplete = false } = world.know(of);
  const inputs = within?.since === undefined ? [of] : [of, within.since];
  const recorded = all(inputs.map((id) => world.know(id).recorded));
  const result = (bounds: Partial<Known>, known = recorded) => finish(fact, world, inputs, bounds, known);

  const entries = items.map((item) => entryOf(list, item, world));
  const [start, end] = windowOf(body, entries, isComplete, world);
  const tooOld = list.staleAfter !== undefined && world.asOf - end.low > durationMs(list.staleAfter);
  const isExtreme = kind === 'least' || kind === 'greatest';
  if (within?.until === 'newest' && tooOld)
    return result(isExtreme ? { low: -Infinity, high: Infinity } : {});

  const judged = entries.map((entry) => {
    const timely: Truth[] = list.kind === 'things' ? [] : [liesIn(entry, start)];
    if (!entry.isTimed) timely.push('unknown');
    if (within?.newest !== undefined) timely.push(isAmongNewest(entry, entries, within.newest, isComplete));
    return { entry, counts: all([...timely, meets(entry, body)]) };
  });
  const sure = judged.filter(({ counts }) => counts === 'true').map(({ entry }) => entry);
  const maybe = judged.filter(({ counts }) => counts !== 'false').map(({ entry }) => entry);
  const isBounded = within?.since !== undefined || within?.last !== undefined;
  const gap = list.kind === 'measured' && uncovered(entries, isBounded ? start.low : undefined, end.high);
  const open = !isComplete || gap;
  const values = (some: readonly Entry[]) => some.map((entry) => entry.world.know(field));
  const lows = (some: readonly Entry[]) => values(some).map(({ low }) => low);
  const highs = (some: readonly Entry[]) => values(some).map(({ high }) => high);
  switch (kind) {
    case 'count': {
      const [low, high] =
        body.distinct === undefined
          ? [sure.length, maybe.length]
          : distinct(list, body.distinct, sure, maybe);
      return result({ low, high: open ? Infinity : high });
    }
    case 'total': {
      const sum = (ends: readonly number[]) => ends.reduce((a, b) => a + Math.max(0, b), 0);
      return result({ low: sum(lows(sure)), high: open ? Infinity : sum(highs(maybe)) });
    }
    case 'least':
      return result({
        low: open ? -Infinity : Math.min(Infinity, ...lows(maybe)),
        high: Math.min(Infinity, ...highs(sure)),
      });
    case 'greatest': {
      const ranked = (ends: number[]) => ends.sort((a, b) => b - a)[(body.rank ?? 1) - 1] ?? -Infinity;
      return result({ low: ranked(lows(sure)), high: open ? Infinity : ranked(highs(maybe)) });
    }
    case 'newest': {
      if (maybe.length === 0 && !open) return { ...result({}, 'false'), cause: 'no-entry', none: true };
      const overtaken = ({ to }: Entry) => sure.some((other) => other.to.low > to.high);
      const [first, ...others] = values(maybe.filter((entry) => !overtaken(entry)));
      if (open || sure.length === 0 || first === undefined) return result({}, all([recorded, 'unknown']));
      const isRead = [first, ...others].every((value) => value.recorded === 'true');
      const { low, high, may } = hull([first, ...others]);
      return result({ low, high, may }, all([recorded, isRead ? 'true' : 'unknown']));
    }
    default:
      return result(longestRun(judged, start, end, UNIT_MS[fact.unit as string] as number));
  }
}

/** How many values: one that is not known may be any of the others, or one more. */
function distinct(list: Fact, name: string, sure: readonly Entry[], maybe: readonly Entry[]) {
  const type = { ...list.item?.[name], id: name } as Fact;
  const read = (entries: readonly Entry[]) => entries.map((entry) => entry.world.know(name));
  const known = (entries: readonly Entry[]) =>
    new Set(
      read(entries)
        .filter((value) => exact(type, value))
        .map((value) => value.text ?? value.may[0] ?? value.low),
    ).size;
  const open = read(maybe).filter((value) => !exact(type, value)).length;
  return [Math.max(known(sure), Math.min(1, sure.length)), known(maybe) + open] as const;
}
