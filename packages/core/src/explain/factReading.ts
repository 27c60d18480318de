import type { Reading } from '../facts/reading.ts';
import { formatDay, formatInstant } from '../facts/time.ts';
import { TRUE, UNKNOWN } from '../facts/truth.ts';
import type { Fact } from '../release/fact.ts';
import type { FactReading } from './assessment.ts';

/** An end of an interval as plain JSON: instants as ISO 8601 in UTC, days as dates. */
const end = (fact: Fact, value: number): number | string =>
  fact.type === 'date-time' ? formatInstant(value) : fact.type === 'date' ? formatDay(value) : value;

/** The one value that is possible, where it is a finite number, one code or a text. */
function exactly({ fact, bounds }: Reading): FactReading['value'] {
  switch (bounds.kind) {
    case 'interval':
      return bounds.low === bounds.high && Number.isFinite(bounds.low) ? end(fact, bounds.low) : undefined;
    case 'possible': {
      const only = bounds.possible.length === 1 ? bounds.possible[0] : undefined;
      return only !== undefined && fact.type === 'boolean' ? only === 'true' : only;
    }
    case 'text':
      return bounds.text;
    default:
      return undefined;
  }
}

type Shown = { -readonly [Key in keyof FactReading]: FactReading[Key] };

/** Puts down what a value that is not exactly known may be, and what is known of lists. */
function show({ fact, bounds }: Reading, out: Shown): void {
  switch (bounds.kind) {
    case 'interval': {
      const { low, high } = bounds;
      // The least or greatest of no items is no number; nothing can be shown for it.
      if (low === high) out.entries = 0;
      if (Number.isFinite(low)) out.low = end(fact, low);
      if (Number.isFinite(high)) out.high = end(fact, high);
      return;
    }
    case 'possible':
      out.possible = bounds.possible;
      return;
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
    case 'list':
      out.entries = bounds.items.length;
  }
}

/** A number that is exactly known, of which nothing else is said but when it was recorded. */
export function numberReading({ id, unit }: Fact, value: number, at: string | undefined): FactReading {
  if (at === undefined) return unit === undefined ? { fact: id, value } : { fact: id, value, unit };
  return unit === undefined ? { fact: id, value, at } : { fact: id, value, unit, at };
}

/**
 * What was read for a fact, as plain JSON with a fixed key order; put down key by key, for there are many. When it was
 * recorded is given beside what leaves that open.
 */
export function factReading(reading: Reading, at = reading.at): FactReading {
  const { fact, cause, from, comparator, assumed, inputs } = reading;
  const { id, unit } = fact;
  const value = exactly(reading);
  const more = cause ?? from ?? comparator ?? assumed ?? inputs;
  // Most are a value and when it was recorded: these are put down as one literal.
  if (value !== undefined && at !== undefined && more === undefined)
    return unit === undefined ? { fact: id, value, at } : { fact: id, value, unit, at };
  const out: Shown = { fact: id };
  if (value === undefined) show(reading, out);
  else out.value = value;
  if (unit !== undefined) out.unit = unit;
  if (cause !== undefined) out.cause = cause;
  if (at !== undefined) out.at = at;
  if (from !== undefined) out.from = from;
  if (comparator !== undefined) out.comparator = comparator;
  if (assumed) out.assumed = assumed;
  if (inputs !== undefined) out.inputs = inputs;
  return out;
}
