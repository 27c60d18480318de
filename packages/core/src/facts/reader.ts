import type { Problem } from '../explain/assessment.ts';
import type { Fact } from '../release/fact.ts';
import { disjoint, narrowed } from './bounds.ts';
import { type ConclusionRead, type Inputs, interval } from './derivations/kind.ts';
import { derive } from './derive.ts';
import type { FactSlot, FactTable } from './factTable.ts';
import { isObject } from './isObject.ts';
import { readList } from './lists.ts';
import type { Moment } from './moment.ts';
import { derivedEntry, type Entry, plainEntry } from './plain.ts';
import { type Interval, isExact, type Reading } from './reading.ts';
import { Readings } from './readings.ts';
import { readSupplied, unknownReading } from './supplied.ts';
import { TRUE, UNKNOWN } from './truth.ts';
import type { Refusal } from './value.ts';

/** Works out what a rule set concludes from the facts read so far. */
export type Concluder = (set: string, readings: Readings, moment: Moment) => ConclusionRead;

/** Read already. */
const PLAIN = 3;
const GIVEN = 2;
const SAID = 1;
const NOTHING_SEARCHED: readonly unknown[] = [];

/** What a row is read from, beside what is supplied. */
interface Given {
  readonly moment: Moment;
  readonly row: (Entry | undefined)[];
  readonly conclude: Concluder;
}

/**
 * Reads the facts of one table into a row, of which the places that nothing is said about may be filled already. One
 * reader reads one case after another: the engine forgets how to read fast when none is left between two cases.
 */
export class Reader implements Inputs {
  readings!: Readings;
  asOf!: Interval;
  zone!: string;
  private problems!: Problem[];
  private moment!: Moment;
  private row!: (Entry | undefined)[];
  private conclude!: Concluder;
  /** How old what is not dated otherwise is, in ms; nothing where the case was recorded at no moment that can be used. */
  private age: number | undefined;
  private readonly facts: FactTable;
  /** By place, whether the case says anything that bears on the fact. */
  private readonly said: Uint8Array;

  constructor(facts: FactTable) {
    this.facts = facts;
    this.said = new Uint8Array(facts.first + facts.slots.length);
  }

  /** Reads one case or option; `unread` are the keys that name no fact of the table. */
  static read(
    facts: FactTable,
    { moment, row, conclude }: Given,
    supplied: Readonly<Record<string, unknown>>,
    searched: readonly unknown[],
  ) {
    const reader = facts.spare.pop() ?? new Reader(facts);
    const { asOf, zone } = moment;
    const readings = new Readings(facts, row, moment);
    const problems: Problem[] = [];
    reader.readings = readings;
    reader.problems = problems;
    reader.moment = moment;
    reader.row = row;
    reader.conclude = conclude;
    reader.age = ageOf(moment);
    reader.asOf = Number.isFinite(asOf) ? interval(asOf, asOf) : interval(-Infinity, Infinity);
    reader.zone = zone;
    const unread = reader.readAll(supplied, searched);
    facts.spare.push(reader);
    return { readings, problems, unread };
  }

  reading(id: string): Reading {
    return this.readings.undated(this.facts.places.get(id)!)!;
  }

  parameter(id: string): ReturnType<Inputs['parameter']> {
    return this.facts.parameters.get(id)!;
  }

  codes(list: string): readonly string[] {
    return this.facts.codes.get(list)!;
  }

  conclusion(set: string): ConclusionRead {
    return this.conclude(set, this.readings, this.moment);
  }

  table(id: string): ReturnType<Inputs['table']> {
    return this.facts.tables.get(id)!;
  }

  /** Reads what is stated, then what follows from it. */
  private readAll(supplied: Readonly<Record<string, unknown>>, searched: readonly unknown[]): string[] {
    const { facts, row, said } = this;
    const unread: string[] = [];
    // A case is JSON: it inherits nothing, and its keys need no list of their own.
    for (const id in supplied) {
      const place = facts.places.get(id) ?? -1;
      if (place < facts.first || place >= said.length) {
        unread.push(id);
        continue;
      }
      const entry = this.plain(facts.byPlace[place]!, supplied[id]);
      said[place] = entry === undefined ? GIVEN : PLAIN;
      if (entry !== undefined) row[place] = entry;
    }
    // A key that is missing from a group somebody searched says something: such groups are read fact by fact.
    for (const group of searched) {
      for (const { place } of facts.groups.get(group as string) ?? []) said[place] ||= SAID;
    }
    for (const slot of facts.base) {
      const { place } = slot;
      if (said[place] === PLAIN) continue;
      if (said[place] !== 0 || row[place] === undefined) {
        row[place] = this.readBase(
          slot,
          said[place] === GIVEN ? supplied[slot.fact.id] : undefined,
          searched,
        );
      }
    }
    this.holdOrder();
    for (const slot of facts.derived) {
      const { place } = slot;
      if (said[place] === GIVEN) row[place] = this.reconciled(slot, supplied[slot.fact.id]);
      else if (row[place] === undefined || this.restsOnCase(slot)) {
        const blank = row[place];
        row[place] = derivedEntry(this.readDerived(slot), slot, blank);
        // What comes out as if nothing had been said changes nothing in what rests on it.
        if (row[place] !== blank) said[place] = SAID;
      }
    }
    said.fill(0);
    return unread;
  }

  /** A value of which nothing is to be looked at but what it is. */
  private plain(slot: FactSlot, raw: unknown): Entry | undefined {
    if (slot.derivation !== undefined || this.age === undefined) return undefined;
    const { staleAfter } = slot;
    const isFresh = staleAfter === undefined || this.moment.ignoreStale || this.age <= staleAfter;
    return isFresh ? plainEntry(slot, raw) : undefined;
  }

  private restsOnCase({ derivation }: FactSlot): boolean {
    for (const place of derivation!.places) if (this.said[place] !== 0) return true;
    return false;
  }

  private readBase(slot: FactSlot, raw: unknown, groups: readonly unknown[]): Reading {
    const { fact } = slot;
    const searched = groups.includes(slot.group);
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
    const read = readList(slot, raw, this, this.moment);
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

  private readDerived(slot: FactSlot): Reading {
    const computed = derive(slot, this);
    if (computed.cause === 'impossible') {
      this.report(slot.fact, {
        code: 'impossible',
        message: 'what follows from the other facts lies outside its limits',
      });
    }
    return computed;
  }

  /** A derived fact that was supplied as well. */
  private reconciled(slot: FactSlot, raw: unknown): Reading {
    const computed = this.readDerived(slot);
    const supplied = this.readBase(slot, raw, NOTHING_SEARCHED);
    const usable = supplied.cause === undefined || supplied.cause === 'within-bounds';
    if (!usable) return computed;
    return disjoint(supplied.bounds, computed.bounds)
      ? this.conflicting(slot, 'the supplied value differs from what follows from the other facts')
      : narrowed(supplied, computed.bounds);
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
    const { row, said } = this;
    // What nobody states may be as late as the case is.
    const broken = this.facts.ordered.filter(
      ([later, earlier]) =>
        said[later.place] !== 0 &&
        isBefore(this.readings.undated(later.place), this.readings.undated(earlier.place)),
    );
    for (const [later, earlier] of broken) {
      row[later.place] = this.conflicting(later, `it lies before ${earlier.fact.id}`);
      row[earlier.place] = this.conflicting(earlier, `it lies after ${later.fact.id}`);
    }
  }
}

/** A case that does not say when it was recorded dates nothing: what cannot go stale is used all the same. */
function ageOf({ asOf, recordedAt, recordedInstant }: Moment): number | undefined {
  if (recordedAt === undefined) return Infinity;
  return recordedInstant === undefined || recordedInstant > asOf ? undefined : asOf - recordedInstant;
}

const isBefore = (later: Reading | undefined, earlier: Reading | undefined): boolean =>
  later?.bounds.kind === 'interval' &&
  earlier?.bounds.kind === 'interval' &&
  later.bounds.high < earlier.bounds.low;
