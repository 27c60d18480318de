import type { FactSlot } from './factTable.ts';
import { isExact, type Reading } from './reading.ts';
import { roundToStep } from './rounding.ts';
import { TRUE } from './truth.ts';
import { readCodes } from './value.ts';

/**
 * A reading that says no more than a value: shared by all cases that state it, so it leaves open when it was
 * recorded, which is when the case was.
 */
export interface PlainReading extends Reading {
  /** Its number among those of its fact. */
  readonly plain: number;
}

/**
 * An instant of which the case says nothing: known to lie before the moment of the case, and put beside it when
 * somebody looks. Shared by all cases.
 */
export interface OpenReading extends Reading {
  readonly open: true;
}

/** What is kept of one fact of a case, in the shortest form: an exact number as it is, or a reading. */
export type Entry = number | PlainReading | OpenReading | Reading;

export const isOpen = (entry: Entry | undefined): entry is OpenReading =>
  typeof entry === 'object' && 'open' in entry;

/** What is read of answers is found again by their bits; more codes than that are read without. */
const MOST_BITS = 26;
/** More than any list of answers: all that are not yes. */
const ALL_NO = 2 ** MOST_BITS;

export const isPlain = (entry: Entry): entry is number | PlainReading =>
  typeof entry === 'number' || 'plain' in entry;

/** A kept entry as a reading, as it is looked at while a case is read: when it was recorded left open. */
export function readingOf(entry: Entry, { fact, derivation }: FactSlot, asOf: number): Reading {
  if (typeof entry !== 'number') return isOpen(entry) ? before(entry, asOf) : entry;
  const bounds = { kind: 'interval', low: entry, high: entry } as const;
  return derivation === undefined
    ? { fact, bounds, recorded: TRUE }
    : { fact, bounds, recorded: TRUE, inputs: derivation.inputs };
}

/** Ends an instant that nothing is said of at the moment of the case. */
function before({ open, ...reading }: OpenReading, asOf: number): Reading {
  return { ...reading, bounds: { kind: 'interval', low: -Infinity, high: asOf } };
}

/** A kept entry as a reading in full. */
export function fullReading(
  entry: Entry,
  slot: FactSlot,
  asOf: number,
  recordedAt: string | undefined,
): Reading {
  const reading = readingOf(entry, slot, asOf);
  if (!isPlain(entry)) return reading;
  // What follows from other facts was recorded at no moment of its own.
  if (slot.derivation !== undefined) return reading;
  const { fact, bounds, recorded, cause } = reading;
  // Whole literals: there is one for every fact that somebody reads about.
  if (cause === undefined) {
    return recordedAt === undefined ? { fact, bounds, recorded } : { fact, bounds, recorded, at: recordedAt };
  }
  return recordedAt === undefined
    ? { fact, bounds, recorded, cause }
    : { fact, bounds, recorded, cause, at: recordedAt };
}

/**
 * What is kept of a derived fact: what is read beside a case that says nothing, where that is the same; an exact
 * number as it is; else the reading.
 */
export function derivedEntry(made: Reading, slot: FactSlot, blank: Entry | undefined): Entry {
  const { bounds, cause, recorded, assumed } = made;
  if (typeof blank === 'object' && isSame(made, blank)) return blank;
  const isNumber = bounds.kind === 'interval' && bounds.low === bounds.high && cause === undefined;
  if (!isNumber || recorded !== TRUE || assumed || 'conclusion' in slot.derivation!.from) return made;
  return bounds.low;
}

const isSame = (a: Reading, b: Reading): boolean =>
  a.cause === b.cause &&
  a.recorded === b.recorded &&
  a.none === b.none &&
  a.assumed === b.assumed &&
  a.at === b.at &&
  (a.bounds === b.bounds ||
    (a.bounds.kind === 'interval' &&
      b.bounds.kind === 'interval' &&
      a.bounds.low === b.bounds.low &&
      a.bounds.high === b.bounds.high));

/** Reads what states an exact value and nothing beside it; nothing where there is more to look at. */
export function plainEntry(slot: FactSlot, raw: unknown): number | PlainReading | undefined {
  switch (slot.fact.type) {
    case 'number':
      return plainNumber(slot, raw);
    case 'boolean':
      return typeof raw === 'boolean' ? slot.plain.get(raw ? 'true' : 'false') : undefined;
    case 'code':
      return typeof raw === 'string' ? slot.plain.get(raw) : undefined;
    case 'codes':
      return plainCodes(slot, raw);
    default:
      return undefined;
  }
}

function plainNumber({ fact }: FactSlot, raw: unknown): number | undefined {
  let value = raw;
  let unit: unknown;
  if (typeof raw === 'object' && raw !== null) {
    const stated = raw as Readonly<Record<string, unknown>>;
    if (stated.at !== undefined || stated.from !== undefined || stated.comparator !== undefined)
      return undefined;
    if ('absent' in stated) return undefined;
    ({ value, unit } = stated);
  }
  if (
    typeof value !== 'number' ||
    !Number.isFinite(value) ||
    (unit === undefined ? '1' : unit) !== (fact.unit ?? '1')
  )
    return undefined;
  const rounded = roundToStep(value, fact.step);
  const { limits, usual } = fact;
  if (limits !== undefined && (rounded < limits[0] || rounded > limits[1])) return undefined;
  if (usual !== undefined && (rounded < usual[0] || rounded > usual[1])) return undefined;
  return rounded;
}

function plainCodes(slot: FactSlot, raw: unknown): PlainReading | undefined {
  if (slot.codes.length > MOST_BITS || typeof raw !== 'object' || raw === null) return undefined;
  let [yes, no] = [0, 0];
  if (Array.isArray(raw)) {
    yes = bitsOf(slot, raw);
    if (slot.fact.unlisted === 'no') no = ALL_NO;
  } else {
    for (const answer in raw) {
      const list = (raw as Readonly<Record<string, unknown>>)[answer];
      if (answer === 'yes') yes = bitsOf(slot, list);
      else if (answer === 'no') no = bitsOf(slot, list);
      else return undefined;
    }
  }
  if (yes < 0 || no < 0) return undefined;
  const key = yes + no * 2 ** MOST_BITS;
  return slot.plain.get(key) ?? newCodes(slot, raw, key);
}

/** The codes of a list as bits, or -1 where one is none of them. They mostly stand in the order of the code list. */
function bitsOf({ codes }: FactSlot, list: unknown): number {
  if (!Array.isArray(list)) return -1;
  let [bits, at] = [0, 0];
  for (const code of list) {
    at = codes.indexOf(code, at);
    if (at === -1) at = codes.indexOf(code);
    if (at === -1) return -1;
    bits |= 1 << at;
  }
  return bits;
}

function newCodes(slot: FactSlot, raw: unknown, key: number): PlainReading | undefined {
  if (slot.plain.size >= MOST_KEPT) return undefined;
  const read = readCodes(slot, raw);
  if ('code' in read) return undefined;
  const { bounds } = read;
  const known = { fact: slot.fact, bounds, recorded: TRUE, plain: slot.plain.size } as const;
  const made: PlainReading = isExact(bounds) ? known : { ...known, cause: 'within-bounds' };
  slot.plain.set(key, made);
  return made;
}

/** So many lists of codes of one fact are remembered. */
const MOST_KEPT = 256;
