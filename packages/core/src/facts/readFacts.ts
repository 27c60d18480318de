import type { Problem } from '../explain/assessment.ts';
import type { Derivation, Fact } from '../release/fact.ts';
import { clip, disjoint, narrowed } from './bounds.ts';
import type { Case } from './case.ts';
import {
  type ConclusionRead,
  type Derived,
  type Inputs,
  interval,
  NOTHING_CONCLUDED,
} from './derivations/kind.ts';
import { type FactSlot, type FactTable, wholeOf } from './factTable.ts';
import { readList } from './lists.ts';
import { isExact, type Reading } from './reading.ts';
import { Readings } from './readings.ts';
import { instantOrDay, type Moment, type Refusal, readSupplied, unknownReading } from './supplied.ts';
import { isTimeZone, parseInstant } from './time.ts';
import { FALSE, TRUE, UNKNOWN } from './truth.ts';

/** Works out what a rule set concludes from the facts read so far. */
export type Concluder = (set: string, readings: Readings, moment: Moment) => ConclusionRead;

/** Every fact of one case, read once and shared. */
export interface CaseReadings {
  readonly readings: Readings;
  readonly problems: readonly Problem[];
  readonly moment: Moment;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The moment of a case; without a usable one nothing in the case can be dated, so nothing is used. */
function momentOf(patient: Case): { moment: Moment; usable: boolean; problems: Problem[] } {
  const problems: Problem[] = [];
  const asOf = typeof patient.asOf === 'string' ? parseInstant(patient.asOf) : undefined;
  if (asOf === undefined) {
    problems.push({
      code: 'no-moment',
      message: 'the case states no moment (asOf) with its offset: no fact is used',
    });
  }
  const zone =
    typeof patient.timeZone === 'string' && isTimeZone(patient.timeZone) ? patient.timeZone : undefined;
  if (zone === undefined) {
    problems.push({ code: 'no-time-zone', message: 'the case states no IANA time zone: no fact is used' });
  }
  const recordedAt = typeof patient.recordedAt === 'string' ? patient.recordedAt : undefined;
  const usable = asOf !== undefined && zone !== undefined;
  const recordedInstant = recordedAt === undefined ? undefined : instantOrDay(recordedAt, zone ?? 'UTC');
  const moment = { asOf: asOf ?? Infinity, zone: zone ?? 'UTC', recordedAt, recordedInstant };
  return { moment, usable, problems };
}

/** Reads every fact of the table from a case. Never throws, whatever JSON the case is. */
export function readFacts(
  table: FactTable,
  raw: Case,
  conclude: Concluder,
  at?: { asOf: number; ignoreStale?: boolean },
): CaseReadings {
  const patient = (isObject(raw) ? raw : {}) as unknown as Case;
  const { moment: stated, usable, problems } = momentOf(patient);
  const moment: Moment = at === undefined ? stated : { ...stated, ...at };
  const supplied = usable && isObject(patient.facts) ? patient.facts : {};
  const searched = new Set(usable && Array.isArray(patient.searched) ? patient.searched : []);
  const reader = new Reader(table, moment, supplied, searched, conclude, new Array(table.slots.length));
  reader.readAll();
  const unread = Object.keys(supplied).filter((id) => !(table.places.get(id)! < table.slots.length));
  if (unread.length > 0) {
    problems.push({ code: 'not-read', message: unread.sort().join(', ') });
  }
  return { readings: reader.readings, problems: [...problems, ...reader.problems], moment };
}

/**
 * Reads the facts of one option on top of the patient's. A missing attribute of a listed item means nothing
 * recorded: whoever listed it looked at the label. Of an item in the hand nobody said so.
 */
export function readOption(
  table: FactTable,
  patient: CaseReadings,
  item: Readonly<Record<string, unknown>>,
  listed: boolean,
): CaseReadings {
  const searched = new Set(listed ? ['option'] : []);
  const row = patient.readings.row.slice();
  const reader = new Reader(table, patient.moment, item, searched, nothingConcluded, row);
  reader.readAll();
  return { readings: reader.readings, problems: reader.problems, moment: patient.moment };
}

/** No fact per option is a conclusion: those are read once for the patient. */
const nothingConcluded: Concluder = () => NOTHING_CONCLUDED;

class Reader {
  readonly readings: Readings;
  readonly problems: Problem[] = [];
  private readonly row: (Reading | undefined)[];
  private readonly inputs: Inputs;
  private readonly table: FactTable;
  private readonly moment: Moment;
  private readonly supplied: Readonly<Record<string, unknown>>;
  private readonly searched: ReadonlySet<unknown>;

  constructor(
    table: FactTable,
    moment: Moment,
    supplied: Readonly<Record<string, unknown>>,
    searched: ReadonlySet<unknown>,
    conclude: Concluder,
    row: (Reading | undefined)[],
  ) {
    this.table = table;
    this.moment = moment;
    this.supplied = supplied;
    this.searched = searched;
    this.row = row;
    this.readings = new Readings(table.places, row);
    const open = !Number.isFinite(moment.asOf);
    this.inputs = {
      reading: (id) => row[table.places.get(id)!]!,
      parameter: (id) => table.parameters.get(id)!,
      table: (id) => table.tables.get(id)!,
      codes: (list) => table.codes.get(list)!,
      conclusion: (set) => conclude(set, this.readings, moment),
      asOf: open ? interval(-Infinity, Infinity) : interval(moment.asOf, moment.asOf),
      zone: moment.zone,
    };
  }

  readAll(): void {
    const { slots } = this.table;
    for (const slot of slots) if (slot.derivation === undefined) this.row[slot.place] = this.readBase(slot);
    this.holdOrder();
    for (const slot of slots)
      if (slot.fact.from) this.row[slot.place] = this.readDerived(slot, slot.fact.from);
  }

  private readBase(slot: FactSlot): Reading {
    const { fact } = slot;
    const isGiven = Object.hasOwn(this.supplied, fact.id);
    const searched = this.searched.has(slot.group);
    if (!isGiven && !searched && slot.silent) return slot.silent;
    const raw = isGiven ? this.supplied[fact.id] : undefined;
    if (fact.type === 'list') return this.readEntries(slot, raw, searched);
    const { reading, refusal, confirmedUnusual } = readSupplied(slot, raw, searched, this.moment);
    if (refusal) this.report(fact, refusal);
    if (confirmedUnusual) {
      this.problems.push({
        code: 'confirmed-unusual',
        fact: fact.id,
        message: 'it is unusual, was confirmed and is used',
      });
    }
    return reading;
  }

  /** A list that somebody gave is on record, even where it is empty. */
  private readEntries(slot: FactSlot, raw: unknown, searched: boolean): Reading {
    const { fact } = slot;
    const isGiven = raw !== undefined && raw !== null && !(isObject(raw) && Object.hasOwn(raw, 'absent'));
    if (!isGiven) return readSupplied(slot, raw, searched, this.moment).reading;
    const read = readList(slot, raw, this.inputs, this.moment);
    if ('code' in read) {
      this.report(fact, read);
      return unknownReading(slot, read.code, UNKNOWN, this.moment);
    }
    for (const refusal of read.refusals) this.report(fact, refusal);
    return {
      fact,
      bounds: read.bounds,
      recorded: TRUE,
      ...(isExact(read.bounds) ? {} : { cause: 'within-bounds' }),
    };
  }

  private report(fact: Fact, refusal: Refusal): void {
    const { code, message, hint } = refusal;
    this.problems.push({ code, fact: fact.id, message, ...(hint === undefined ? {} : { hint }) });
  }

  private conflicting(slot: FactSlot, message: string): Reading {
    this.report(slot.fact, { code: 'conflicting', message });
    return unknownReading(slot, 'conflicting', UNKNOWN, this.moment);
  }

  /** Instants that certainly lie before the one they must follow: neither of the two can be believed. */
  private holdOrder(): void {
    const broken = this.table.ordered.flatMap(([laterSlot, earlierSlot]): [FactSlot, string][] => {
      const [later, earlier] = [this.row[laterSlot.place], this.row[earlierSlot.place]];
      if (later?.bounds.kind !== 'interval' || earlier?.bounds.kind !== 'interval') return [];
      if (later.bounds.high >= earlier.bounds.low) return [];
      return [
        [laterSlot, `it lies before ${earlierSlot.fact.id}`],
        [earlierSlot, `it lies after ${laterSlot.fact.id}`],
      ];
    });
    for (const [slot, message] of broken) this.row[slot.place] = this.conflicting(slot, message);
  }

  private readDerived(slot: FactSlot, derivation: Derivation): Reading {
    const { fact } = slot;
    const { kind, inputs } = slot.derivation!;
    const waited =
      'conclusion' in derivation ? this.inputs.conclusion(derivation.conclusion).waitsFor : inputs;
    const computed = this.finish(slot, kind.evaluate(derivation, fact, this.inputs), waited);
    if (!Object.hasOwn(this.supplied, fact.id)) return computed;
    const supplied = this.readBase(slot);
    const usable = supplied.cause === undefined || supplied.cause === 'within-bounds';
    if (!usable) return computed;
    return disjoint(supplied.bounds, computed.bounds)
      ? this.conflicting(slot, 'the supplied value differs from what follows from the other facts')
      : narrowed(supplied, computed.bounds);
  }

  /** Rounds to the fact's step and clips to its limits. */
  private finish(slot: FactSlot, derived: Derived, inputs: readonly string[]): Reading {
    const { fact } = slot;
    const { assumed, recorded } = derived;
    // A conclusion waits for facts, it does not follow from them: that they are none leaves it open.
    const follows = fact.from !== undefined && !('conclusion' in fact.from) && inputs.length > 0;
    const none = derived.none || (follows && inputs.every((id) => this.readings.get(id)?.none));
    const whole = wholeOf(slot, this.moment.asOf);
    if (none) return { fact, bounds: whole, recorded: FALSE, cause: 'no-entry', inputs, none: true };
    const bounds = clip(derived.bounds, whole, fact.step, mayBeEmpty(fact));
    if (bounds === undefined) {
      this.report(fact, {
        code: 'impossible',
        message: 'what follows from the other facts lies outside its limits',
      });
      return marked({ fact, bounds: whole, recorded: UNKNOWN, cause: 'impossible', inputs }, assumed);
    }
    return marked(
      isExact(bounds)
        ? { fact, bounds, recorded, inputs }
        : { fact, bounds, recorded, cause: 'derived', inputs },
      assumed,
    );
  }
}

const marked = (reading: Reading, assumed: true | undefined): Reading =>
  assumed ? { ...reading, assumed } : reading;

const mayBeEmpty = ({ type, from }: Fact): boolean =>
  type === 'number' && from !== undefined && ('least' in from || 'greatest' in from);
