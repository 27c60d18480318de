import type { Fact } from '../release/fact.ts';
import { clip } from './bounds.ts';
import { ConclusionReading } from './conclusionReading.ts';
import {
  type ConclusionRead,
  type Derived,
  type Inputs,
  interval,
  NOTHING_CONCLUDED,
} from './derivations/kind.ts';
import { type FactSlot, type FactTable, wholeOf } from './factTable.ts';
import type { OpenReading } from './plain.ts';
import { isExact, type Reading } from './reading.ts';
import { unknownReading } from './supplied.ts';
import { FALSE, UNKNOWN } from './truth.ts';

/** Works out a derived fact; `cause` is `impossible` where what follows lies outside the fact's limits. */
export function derive(slot: FactSlot, inputs: Inputs): Reading {
  const { fact } = slot;
  const { from, kind, inputs: ids } = slot.derivation!;
  // A conclusion waits for facts, it does not follow from them: that they are none leaves it open.
  if ('conclusion' in from) return concluded(slot, inputs, inputs.conclusion(from.conclusion));
  const derived = kind.evaluate(from, fact, inputs);
  if (ids.length > 0 && ids.every((id) => inputs.reading(id).none)) {
    return finish(slot, { ...derived, none: true }, ids, inputs);
  }
  return finish(slot, derived, ids, inputs);
}

/** The same few conclusions are reached again and again: what they read as is worked out once. */
function concluded(slot: FactSlot, inputs: Inputs, read: ConclusionRead): Reading {
  const { fact, plain, derivation } = slot;
  const key = `${read.settled} ${read.stands} ${read.possible.join(' ')}`;
  let known = plain.get(key);
  if (known === undefined) {
    const reading = finish(slot, derivation!.kind.evaluate(derivation!.from, fact, inputs), [], inputs);
    known = { ...reading, plain: plain.size };
    plain.set(key, known);
  }
  return new ConclusionReading(known, known.plain, read);
}

/** Rounds to the fact's step and clips to its limits. */
function finish(slot: FactSlot, derived: Derived, ids: readonly string[], inputs: Inputs): Reading {
  const { fact } = slot;
  const { assumed, recorded } = derived;
  const whole = slot.whole ?? wholeOf(slot, inputs.asOf.high);
  if (derived.none) {
    return { fact, bounds: whole, recorded: FALSE, cause: 'no-entry', inputs: ids, none: true };
  }
  const bounds = clip(derived.bounds, whole, fact.step, mayBeEmpty(fact));
  if (bounds === undefined) {
    return marked({ fact, bounds: whole, recorded: UNKNOWN, cause: 'impossible', inputs: ids }, assumed);
  }
  return marked(
    isExact(bounds)
      ? { fact, bounds, recorded, inputs: ids }
      : { fact, bounds, recorded, cause: 'derived', inputs: ids },
    assumed,
  );
}

const marked = (reading: Reading, assumed: true | undefined): Reading =>
  assumed ? { ...reading, assumed } : reading;

const mayBeEmpty = ({ type, from }: Fact): boolean =>
  type === 'number' && from !== undefined && ('least' in from || 'greatest' in from);

/**
 * What is read of each fact where a case says nothing at all, wherever that is the same for every case that has a
 * moment, the end of an instant aside: what looks at the moment itself, its zone or another rule set is left out.
 */
export function blankRow(table: FactTable): (Reading | OpenReading | undefined)[] {
  const moment = interval(0, 0);
  // Instants are read here as at that moment, for what rests on them.
  const row: (Reading | undefined)[] = [];
  for (const slot of table.base) {
    row[slot.place] = slot.silent ?? unknownReading(slot, 'not-supplied', UNKNOWN, { asOf: moment.high });
  }
  let looked = false;
  const look = <T>(value: T): T => {
    looked = true;
    return value;
  };
  const inputs: Inputs = {
    reading: (id) => row[table.places.get(id)!]!,
    parameter: (id) => table.parameters.get(id)!,
    table: (id) => table.tables.get(id)!,
    codes: (list) => table.codes.get(list)!,
    conclusion: () => look(NOTHING_CONCLUDED),
    get asOf() {
      return look(moment);
    },
    get zone() {
      return look('UTC');
    },
  };
  for (const slot of table.derived) {
    const { kind, places } = slot.derivation!;
    if (places.some((place) => row[place] === undefined)) continue;
    looked = false;
    const reading = derive({ ...slot, whole: wholeOf(slot, moment.high) }, inputs);
    if ((kind.timeless || !looked) && reading.cause !== 'impossible') row[slot.place] = reading;
  }
  return table.slots.map(({ place, whole }) => {
    const reading = row[place];
    return whole === undefined && reading !== undefined ? opened(reading, moment.high) : reading;
  });
}

/** An instant that nothing bounds but the moment it was read at. */
const opened = (reading: Reading, moment: number): OpenReading | undefined =>
  reading.bounds.kind === 'interval' && reading.bounds.low === -Infinity && reading.bounds.high === moment
    ? { ...reading, bounds: interval(-Infinity, Infinity), open: true }
    : undefined;
