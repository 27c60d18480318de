import { isExact, type Reading } from '../facts/reading.ts';
import { formatDay, formatInstant } from '../facts/time.ts';
import { TRUE, UNKNOWN } from '../facts/truth.ts';
import type { Fact } from '../release/fact.ts';
import type { FactReading } from './assessment.ts';

/** An end of an interval as plain JSON: instants as ISO 8601 in UTC, days as dates. */
const end = (fact: Fact, value: number): number | string =>
  fact.type === 'date-time' ? formatInstant(value) : fact.type === 'date' ? formatDay(value) : value;

function shown({ fact, bounds }: Reading): Partial<FactReading> {
  switch (bounds.kind) {
    case 'interval':
      // The least or greatest of no items is no number; nothing can be shown for it.
      if (bounds.low === bounds.high)
        return Number.isFinite(bounds.low) ? { value: end(fact, bounds.low) } : { entries: 0 };
      return {
        ...(Number.isFinite(bounds.low) ? { low: end(fact, bounds.low) } : {}),
        ...(Number.isFinite(bounds.high) ? { high: end(fact, bounds.high) } : {}),
      };
    case 'possible': {
      const [only] = bounds.possible;
      if (!isExact(bounds) || only === undefined) return { possible: bounds.possible };
      return { value: fact.type === 'boolean' ? only === 'true' : only };
    }
    case 'answers': {
      const yes = [...bounds.answers].flatMap(([code, answer]) => (answer === TRUE ? [code] : []));
      const open = [...bounds.answers].flatMap(([code, answer]) => (answer === UNKNOWN ? [code] : []));
      return open.length === 0 ? { value: yes } : { yes, open };
    }
    case 'text':
      return bounds.text === undefined ? {} : { value: bounds.text };
    case 'list':
      return { entries: bounds.items.length };
  }
}

/** What was read for a fact, as plain JSON with a fixed key order. */
export function factReading(reading: Reading): FactReading {
  const { fact, cause, at, from, comparator, assumed, inputs } = reading;
  return {
    fact: fact.id,
    ...shown(reading),
    ...(fact.unit === undefined ? {} : { unit: fact.unit }),
    ...(cause === undefined ? {} : { cause }),
    ...(at === undefined ? {} : { at }),
    ...(from === undefined ? {} : { from }),
    ...(comparator === undefined ? {} : { comparator }),
    ...(assumed ? { assumed } : {}),
    ...(inputs === undefined ? {} : { inputs }),
  };
}
