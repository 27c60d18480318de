import type { Derivation, Fact, Items } from '../../release/fact.ts';
import type { Bounds, Reading } from '../reading.ts';
import { MS_PER_UNIT, parseDuration } from '../time.ts';
import { and, FALSE, TRUE, type Truth, UNKNOWN } from '../truth.ts';
import { hull, none } from './choosing.ts';
import { type Candidate, type Looked, lookAt } from './items.ts';
import { type AggregateName, aggregateFaults } from './itemsCheck.ts';
import { watchItems } from './itemsWatch.ts';
import { type DerivationKind, type Derived, ends, type Inputs, inexact, interval } from './kind.ts';

type Kind<N extends AggregateName> = Extract<Derivation, Readonly<Record<N, unknown>>>;
type Body<N extends AggregateName> = Kind<N> extends Readonly<Record<N, infer B>> ? B & Items : never;

const belonging = ({ candidates }: Looked): Candidate[] =>
  candidates.filter(({ belongs }) => belongs === TRUE);
const possible = ({ candidates }: Looked): Candidate[] =>
  candidates.filter(({ belongs }) => belongs !== FALSE);
const lowOf = (field: string, { item }: Candidate): number => ends(item.get(field)!).low;
const highOf = (field: string, { item }: Candidate): number => ends(item.get(field)!).high;
const sumOf = (values: readonly number[]): number => values.reduce((sofar, value) => sofar + value, 0);

/** As charted up to the last entry, and the last entry is too old to say so. */
function isStale({ within }: Items, { fact, end }: Looked, inputs: Inputs): boolean {
  const age = fact.staleAfter === undefined ? undefined : parseDuration(fact.staleAfter);
  return within?.until === 'newest' && age !== undefined && inputs.asOf.high - end.low > age;
}

/** Builds a kind from what it makes of the items it looks at; the rest is common to all aggregates. */
function aggregate<N extends AggregateName>(
  name: N,
  make: (body: Body<N>, looked: Looked, fact: Fact, inputs: Inputs) => Derived | Bounds,
): DerivationKind<Kind<N>> {
  const bodyOf = (derivation: Kind<N>): Body<N> =>
    (derivation as unknown as Readonly<Record<N, Body<N>>>)[name];
  const facts = (derivation: Kind<N>): string[] => {
    const { of, within } = bodyOf(derivation);
    return within?.since === undefined ? [of] : [of, within.since];
  };
  return {
    timeless: true,
    facts,
    check: (derivation, fact, dictionary) => aggregateFaults(name, bodyOf(derivation), fact, dictionary),
    evaluate: (derivation, fact, inputs) => {
      const body = bodyOf(derivation);
      const looked = lookAt(body, inputs);
      if (isStale(body, looked, inputs))
        return {
          bounds:
            name === 'least' || name === 'greatest'
              ? interval(-Infinity, Infinity)
              : none(fact, inputs).bounds,
          recorded: looked.recorded,
        };
      const made = make(body, looked, fact, inputs);
      return 'bounds' in made ? made : { bounds: made, recorded: looked.recorded };
    },
    asks: (derivation, inputs) => inexact(facts(derivation), inputs),
    watch: (derivation, fact, cuts, inputs) => watchItems(bodyOf(derivation), fact, cuts, inputs),
  };
}

/** How many items belong; of distinct values, an item whose value is not known may bring one more or none. */
export const count = aggregate('count', ({ distinct }, looked) => {
  const [sure, maybe] = [belonging(looked), possible(looked)];
  if (distinct === undefined) return interval(sure.length, looked.open ? Infinity : maybe.length);
  const valuesOf = (of: readonly Candidate[]): Set<string> =>
    new Set(of.flatMap(({ item }) => keyOf(item.get(distinct)) ?? []));
  const unknown = maybe.filter(({ item }) => keyOf(item.get(distinct)) === undefined).length;
  const least = Math.max(valuesOf(sure).size, Math.min(sure.length, 1));
  return interval(least, looked.open ? Infinity : valuesOf(maybe).size + unknown);
});

function keyOf(reading: Reading | undefined): string | undefined {
  if (reading === undefined || reading.cause !== undefined) return undefined;
  const { bounds } = reading;
  if (bounds.kind === 'interval') return String(bounds.low);
  return bounds.kind === 'possible' ? bounds.possible[0] : bounds.kind === 'text' ? bounds.text : undefined;
}

/** The sum of a field; a missing hour is never zero, so a gap leaves the sum open upwards. */
export const total = aggregate('total', ({ field }, looked) =>
  interval(
    sumOf(belonging(looked).map((one) => Math.max(0, lowOf(field, one)))),
    looked.open ? Infinity : sumOf(possible(looked).map((one) => highOf(field, one))),
  ),
);

/** The least value; of no items, more than any number: "every item" holds of none, so ask for a count beside it. */
export const least = aggregate('least', ({ field }, looked) => {
  const lows = possible(looked).map((one) => lowOf(field, one));
  const highs = belonging(looked).map((one) => highOf(field, one));
  return interval(looked.open ? -Infinity : Math.min(Infinity, ...lows), Math.min(Infinity, ...highs));
});

/** The greatest value, or the one of a rank; of too few items, less than any number. */
export const greatest = aggregate('greatest', ({ field, rank = 1 }, looked) => {
  const ranked = (values: readonly number[]): number =>
    [...values].sort((a, b) => b - a)[rank - 1] ?? -Infinity;
  const low = ranked(belonging(looked).map((one) => lowOf(field, one)));
  const high = ranked(possible(looked).map((one) => highOf(field, one)));
  return interval(low, looked.open ? Infinity : high);
});

/** A field of the newest item; none where there is none. */
export const newest = aggregate('newest', ({ field }, looked, fact, inputs): Derived => {
  const maybe = possible(looked);
  const nothing = none(fact, inputs);
  if (maybe.length === 0 && !looked.open) return nothing;
  const open = and(looked.recorded, UNKNOWN);
  const sure = belonging(looked);
  const lastSure = Math.max(...sure.map(({ span }) => span.to.low));
  const latest = maybe.filter(({ span }) => sure.length === 0 || span.to.high >= lastSure);
  const read = latest.flatMap(({ item }) => item.get(field)?.bounds ?? []);
  if (looked.open || sure.length === 0 || read.length === 0)
    return { bounds: nothing.bounds, recorded: open };
  const recorded: Truth = latest.every(({ item }) => item.get(field)?.recorded === TRUE)
    ? looked.recorded
    : open;
  return { bounds: read.reduce(hull), recorded };
});

/**
 * The longest unbroken stretch of entries that belong. What is not charted may have belonged: a gap makes a run open
 * upwards and never ends one.
 */
export const longestRun = aggregate('longestRun', (_body, looked, fact) => {
  const unit = MS_PER_UNIT[fact.unit ?? 'h'] ?? 1;
  return interval(provenRun(looked) / unit, possibleRun(looked) / unit);
});

/** Time between two moments at which something may change, in order. */
function stretches({ candidates, start, end }: Looked): [number, number][] {
  if (start.low >= end.high) return [];
  const edges = candidates.flatMap(({ span: { from, to } }) => [from.low, from.high, to.low, to.high]);
  const inside = edges.filter((edge) => edge > start.low && edge < end.high);
  const cuts = [...new Set([start.low, ...inside, end.high])].sort((a, b) => a - b);
  return cuts.slice(1).map((cut, index) => [cuts[index]!, cut]);
}

const covers = ({ span: { from, to } }: Candidate, low: number, high: number): boolean =>
  from.high <= low && to.low >= high;
const touches = ({ span: { from, to } }: Candidate, low: number, high: number): boolean =>
  from.low < high && to.high > low;

function longest(looked: Looked, isPart: (low: number, high: number) => boolean): number {
  let [best, from] = [0, looked.start.low];
  for (const [low, high] of stretches(looked)) {
    if (isPart(low, high)) best = Math.max(best, high - from);
    else from = high;
  }
  return best;
}

const failing = ({ candidates }: Looked): Candidate[] =>
  candidates.filter(({ belongs }) => belongs === FALSE);

/** Where entries overlap and say different things, nothing is proven. */
const provenRun = (looked: Looked): number =>
  longest(
    looked,
    (low, high) =>
      belonging(looked).some((one) => covers(one, low, high)) &&
      !failing(looked).some((one) => touches(one, low, high)),
  );

const possibleRun = (looked: Looked): number =>
  longest(
    looked,
    (low, high) =>
      !failing(looked).some((one) => covers(one, low, high)) ||
      possible(looked).some((one) => touches(one, low, high)),
  );
