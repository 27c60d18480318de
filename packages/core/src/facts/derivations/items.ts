import { leafTest, leafTruth } from '../../plan/leaf.ts';
import type { Fact, FieldCondition, Items, Window } from '../../release/fact.ts';
import type { Interval, ItemRead, ListRead } from '../reading.ts';
import { MS_PER_UNIT } from '../time.ts';
import { and, FALSE, not, or, TRUE, type Truth, truth, UNKNOWN } from '../truth.ts';
import { allRecorded, ends, type Inputs, interval } from './kind.ts';

/** One item of a list with the truth of its belonging to what an aggregate looks at, and the time it covers. */
export interface Candidate {
  readonly item: ItemRead;
  readonly belongs: Truth;
  readonly span: Span;
}

/** Start and end of an entry; an event starts where it ends, a thing has no time. */
interface Span {
  readonly from: Interval;
  readonly to: Interval;
}

export interface Looked {
  readonly fact: Fact;
  readonly recorded: Truth;
  readonly candidates: readonly Candidate[];
  /** There may be entries in the window that nobody gave: the list is not complete, or time is not covered. */
  readonly open: boolean;
  readonly start: Interval;
  readonly end: Interval;
}

const ALWAYS: Interval = interval(-Infinity, Infinity);

/** Looks at a list through the window and the condition of an aggregate. */
export function lookAt({ of, where, within }: Items, inputs: Inputs): Looked {
  const { fact, bounds } = inputs.reading(of);
  const recorded = allRecorded(within?.since === undefined ? [of] : [of, within.since], inputs);
  const list: ListRead = bounds.kind === 'list' ? bounds : { kind: 'list', items: [], complete: false };
  const spans = list.items.map((item) => spanOf(fact, item));
  const end = endOf(within, spans, list.complete, inputs);
  const start = startOf(within, end, inputs);
  const holds = where && list.items.length > 0 ? itemTest(where, fact, inputs) : undefined;
  const candidates = list.items.map((item, index): Candidate => {
    const span = spans[index]!;
    const timed =
      fact.kind === 'things'
        ? TRUE
        : and(
            isDated(fact, item),
            and(inWindow(span, start, fact.at?.length === 1), amongNewest(index, spans, list, within)),
          );
    return { item, span, belongs: holds === undefined ? timed : and(timed, holds(item)) };
  });
  const gap =
    fact.kind === 'measured' &&
    hasGap(
      spans,
      within?.since === undefined && within?.last === undefined ? undefined : start.low,
      end.high,
    );
  return { fact, recorded, candidates, open: !list.complete || gap, start, end };
}

function spanOf(fact: Fact, item: ItemRead): Span {
  const [first, last = first] = fact.at ?? [];
  const at = (field: string | undefined): Interval => {
    const reading = field === undefined ? undefined : item.get(field);
    return reading ? ends(reading) : ALWAYS;
  };
  return { from: at(first), to: at(last) };
}

/** An entry whose time nobody gave, or whose time is refused, counts only as possible. */
const isDated = (fact: Fact, item: ItemRead): Truth =>
  (fact.at ?? []).every((field) => item.get(field)?.recorded === TRUE) ? TRUE : UNKNOWN;

/** The end of the window: the moment of the case, or the end of the newest entry. */
function endOf(
  within: Window | undefined,
  spans: readonly Span[],
  complete: boolean,
  inputs: Inputs,
): Interval {
  if (within?.until !== 'newest' || spans.length === 0) return inputs.asOf;
  const latest = Math.max(...spans.map(({ to }) => to.high));
  return interval(Math.max(...spans.map(({ to }) => to.low)), complete ? latest : inputs.asOf.high);
}

function startOf(within: Window | undefined, end: Interval, inputs: Inputs): Interval {
  const since = within?.since === undefined ? ALWAYS : ends(inputs.reading(within.since));
  const back = within?.last === undefined ? Infinity : lengthOf(within.last, inputs);
  if (within?.since === undefined) return interval(end.low - back, end.high - back);
  return interval(Math.max(since.low, end.low - back), Math.max(since.high, end.high - back));
}

/** A length of time in ms; a local choice is in hours unless its own unit says otherwise, which the check sees to. */
export function lengthOf(last: NonNullable<Window['last']>, inputs: Inputs): number {
  if ('parameter' in last) return Number(inputs.parameter(last.parameter)) * (MS_PER_UNIT.h ?? 0);
  return last.value * (MS_PER_UNIT[last.unit] ?? Number.NaN);
}

/** An entry that straddles the start of the window counts only as possible. */
function inWindow({ from, to }: Span, start: Interval, isEvent: boolean): Truth {
  if (to.high < start.low || (!isEvent && to.high === start.low && from.high < start.low)) return FALSE;
  return from.low >= start.high ? TRUE : UNKNOWN;
}

/** Whether an entry is one of the newest so many. */
function amongNewest(
  index: number,
  spans: readonly Span[],
  list: ListRead,
  within: Window | undefined,
): Truth {
  if (within?.newest === undefined) return TRUE;
  const own = spans[index]!.to;
  const others = spans.filter((_, other) => other !== index);
  const surelyLater = others.filter(({ to }) => to.low > own.high).length;
  const maybeLater = others.filter(({ to }) => to.high >= own.low).length;
  return truth(list.complete && maybeLater < within.newest, surelyLater < within.newest);
}

/** Whether some stretch between the start of the window and its end is not covered by any entry. */
function hasGap(spans: readonly Span[], start: number | undefined, end: number): boolean {
  const sure = spans.map(({ from, to }) => interval(from.high, to.low)).sort((a, b) => a.low - b.low);
  let covered = start ?? sure[0]?.low ?? end;
  for (const { low, high } of sure) {
    if (low > covered) break;
    covered = Math.max(covered, high);
  }
  return covered < end;
}

type ItemTest = (item: ItemRead) => Truth;

/** Makes a condition over the fields of an item ready to be asked of each of them. */
function itemTest(condition: FieldCondition, list: Fact, inputs: Inputs): ItemTest {
  const testOf = (one: FieldCondition): ItemTest => itemTest(one, list, inputs);
  if ('all' in condition) {
    const tests = condition.all.map(testOf);
    return (item) => tests.reduce<Truth>((sofar, test) => and(sofar, test(item)), TRUE);
  }
  if ('any' in condition) {
    const tests = condition.any.map(testOf);
    return (item) => tests.reduce<Truth>((sofar, test) => or(sofar, test(item)), FALSE);
  }
  if ('not' in condition) {
    const test = testOf(condition.not);
    return (item) => not(test(item));
  }
  const { field, operator, value } = condition;
  const isReference = typeof value === 'object' && !Array.isArray(value) && 'parameter' in value;
  const type = list.item?.[field];
  const test = type && leafTest(type, operator, isReference ? inputs.parameter(value.parameter) : value);
  return (item) => {
    const reading = item.get(field);
    return reading && test ? leafTruth(test, reading) : UNKNOWN;
  };
}
