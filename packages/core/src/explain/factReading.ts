import { isExact, type Reading } from '../facts/reading.ts';
import { formatDay, formatInstant } from '../facts/time.ts';
import { TRUE, UNKNOWN } from '../facts/truth.ts';
import type { Fact } from '../release/fact.ts';
import type { FactReading } from './assessment.ts';

/** An end of an interval as plain JSON: instants as ISO 8601 in UTC, days as dates. */
const end = (fact: Fact, value: number): number | string =>
  fact.type === 'date-time' ? formatInstant(value) : fact.type === 'date' ? formatDay(value) : value;

/** The one value, where it is a finite number or one code. */
function exactly({ fact, bounds }: Reading): NonNullable<FactReading['value']> | undefined {
  if (bounds.kind === 'interval' && bounds.low === bounds.high && Number.isFinite(bounds.low))
    return end(fact, bounds.low);
  const only = bounds.kind === 'possible' && bounds.possible.length === 1 ? bounds.possible[0] : undefined;
  return only !== undefined && fact.type === 'boolean' ? only === 'true' : only;
}

type Shown = { -readonly [Key in keyof FactReading]: FactReading[Key] };

/** Puts down what the value is or may be. */
function show({ fact, bounds }: Reading, out: Shown): void {
  switch (bounds.kind) {
    case 'interval': {
      const { low, high } = bounds;
      if (low === high) {
        // The least or greatest of no items is no number; nothing can be shown for it.
        if (Number.isFinite(low)) out.value = end(fact, low);
        else out.entries = 0;
        return;
      }
      if (Number.isFinite(low)) out.low = end(fact, low);
      if (Number.isFinite(high)) out.high = end(fact, high);
      return;
    }
    case 'possible': {
      const [only] = bounds.possible;
      if (!isExact(bounds) || only === undefined) out.possible = bounds.possible;
      else out.value = fact.type === 'boolean' ? only === 'true' : only;
      return;
    }
    case 'answers': {
      const yes: string[] = [];
      const open: string[] = [];
      for (const [code, answer] of bounds.answers) {
        if (answer === TRUE) yes.push(code);
        else if (answer === UNKNOWN) open.push(code);
      }
      if (open.length === 0) out.value = yes;
      else {
        out.yes = yes;
        out.open = open;
      }
      return;
    }
    case 'text':
      if (bounds.text !== undefined) out.value = bounds.text;
      return;
    case 'list':
      out.entries = bounds.items.length;
  }
}

/** What was read for a fact, as plain JSON with a fixed key order; put down key by key, for there are many. */
export function factReading(reading: Reading): FactReading {
  const { fact, cause, at, from, comparator, assumed, inputs } = reading;
  const isPlain = cause === undefined && from === undefined && assumed === undefined && inputs === undefined;
  const value = isPlain && comparator === undefined ? exactly(reading) : undefined;
  // Most are a value and when it was recorded: these are put down as one literal.
  if (value !== undefined && at !== undefined) {
    const { id, unit } = fact;
    return unit === undefined ? { fact: id, value, at } : { fact: id, value, unit, at };
  }
  const out: Shown = { fact: fact.id };
  show(reading, out);
  if (fact.unit !== undefined) out.unit = fact.unit;
  if (cause !== undefined) out.cause = cause;
  if (at !== undefined) out.at = at;
  if (from !== undefined) out.from = from;
  if (comparator !== undefined) out.comparator = comparator;
  if (assumed) out.assumed = assumed;
  if (inputs !== undefined) out.inputs = inputs;
  return out;
}
