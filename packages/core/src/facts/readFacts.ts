import type { Problem } from '../explain/assessment.ts';
import type { Constant } from '../release/condition.ts';
import type { Derivation, Fact } from '../release/fact.ts';
import type { Table } from '../release/parameter.ts';
import { clip, disjoint, narrowed } from './bounds.ts';
import type { Case } from './case.ts';
import {
  type ConclusionRead,
  type Derived,
  type Inputs,
  interval,
  NOTHING_CONCLUDED,
} from './derivations/kind.ts';
import { kindOf } from './derivations/kinds.ts';
import { readList } from './lists.ts';
import { domain, isExact, type Reading } from './reading.ts';
import { instantOrDay, type Moment, type Refusal, readSupplied } from './supplied.ts';
import { isTimeZone, parseInstant } from './time.ts';
import { FALSE, TRUE, UNKNOWN } from './truth.ts';

/** The facts a plan reads, each after the facts it is derived from, and the tables and choices they need. */
export interface FactTable {
  readonly facts: readonly Fact[];
  readonly codes: ReadonlyMap<string, readonly string[]>;
  readonly parameters: ReadonlyMap<string, Constant>;
  readonly tables: ReadonlyMap<string, Table>;
}

/** Works out what a rule set concludes from the facts read so far. */
export type Concluder = (
  set: string,
  readings: ReadonlyMap<string, Reading>,
  moment: Moment,
) => ConclusionRead;

/** Every fact of one case, read once and shared. */
export interface CaseReadings {
  readonly readings: ReadonlyMap<string, Reading>;
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
  const reader = new Reader(table, moment, supplied, searched, conclude);
  reader.readAll();
  const unread = Object.keys(supplied).filter((id) => !reader.readings.has(id));
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
  const reader = new Reader(table, patient.moment, item, searched, nothingConcluded, patient.readings);
  reader.readAll();
  return { readings: reader.readings, problems: reader.problems, moment: patient.moment };
}

/** No fact per option is a conclusion: those are read once for the patient. */
const nothingConcluded: Concluder = () => NOTHING_CONCLUDED;

class Reader {
  readonly readings: Map<string, Reading>;
  readonly problems: Problem[] = [];
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
    given: ReadonlyMap<string, Reading> = new Map(),
  ) {
    this.table = table;
    this.moment = moment;
    this.supplied = supplied;
    this.searched = searched;
    this.readings = new Map(given);
    const open = !Number.isFinite(moment.asOf);
    this.inputs = {
      reading: (id) => this.readings.get(id)!,
      parameter: (id) => table.parameters.get(id)!,
      table: (id) => table.tables.get(id)!,
      codes: (list) => table.codes.get(list)!,
      conclusion: (set) => conclude(set, this.readings, moment),
      asOf: open ? interval(-Infinity, Infinity) : interval(moment.asOf, moment.asOf),
      zone: moment.zone,
    };
  }

  readAll(): void {
    for (const fact of this.table.facts)
      if (fact.from === undefined) this.readings.set(fact.id, this.readBase(fact));
    this.holdOrder();
    for (const fact of this.table.facts) {
      if (fact.from !== undefined) this.readings.set(fact.id, this.readDerived(fact, fact.from));
    }
  }

  private codesOf(fact: Fact): readonly string[] {
    return fact.codes === undefined ? [] : (this.table.codes.get(fact.codes) ?? []);
  }

  private readBase(fact: Fact): Reading {
    const raw = Object.hasOwn(this.supplied, fact.id) ? this.supplied[fact.id] : undefined;
    const searched = this.searched.has(fact.id.slice(0, fact.id.indexOf('.')));
    if (fact.type === 'list') return this.readEntries(fact, raw, searched);
    const { reading, refusal, confirmedUnusual } = readSupplied(
      fact,
      this.codesOf(fact),
      raw,
      searched,
      this.moment,
    );
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
  private readEntries(fact: Fact, raw: unknown, searched: boolean): Reading {
    const isGiven = raw !== undefined && raw !== null && !(isObject(raw) && Object.hasOwn(raw, 'absent'));
    if (!isGiven) return readSupplied(fact, [], raw, searched, this.moment).reading;
    const codesOf = (list: string | undefined) =>
      list === undefined ? [] : (this.table.codes.get(list) ?? []);
    const read = readList(fact, raw, codesOf, this.inputs, this.moment);
    if ('code' in read) {
      this.report(fact, read);
      return { fact, bounds: domain(fact, [], this.moment.asOf), recorded: UNKNOWN, cause: read.code };
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

  private conflicting(fact: Fact, message: string): Reading {
    this.report(fact, { code: 'conflicting', message });
    return {
      fact,
      bounds: domain(fact, this.codesOf(fact), this.moment.asOf),
      recorded: UNKNOWN,
      cause: 'conflicting',
    };
  }

  /** Instants that certainly lie before the one they must follow: neither of the two can be believed. */
  private holdOrder(): void {
    const broken = this.table.facts.flatMap((fact): [Fact, string][] => {
      const [later, earlier] = [this.readings.get(fact.id), this.readings.get(fact.notBefore ?? '')];
      if (fact.from || later?.bounds.kind !== 'interval' || earlier?.bounds.kind !== 'interval') return [];
      if (later.bounds.high >= earlier.bounds.low) return [];
      return [
        [fact, `it lies before ${earlier.fact.id}`],
        [earlier.fact, `it lies after ${fact.id}`],
      ];
    });
    for (const [fact, message] of broken) this.readings.set(fact.id, this.conflicting(fact, message));
  }

  private readDerived(fact: Fact, derivation: Derivation): Reading {
    const kind = kindOf(derivation);
    const inputs =
      'conclusion' in derivation
        ? this.inputs.conclusion(derivation.conclusion).waitsFor
        : kind.facts(derivation);
    const computed = this.finish(fact, kind.evaluate(derivation, fact, this.inputs), inputs);
    if (!Object.hasOwn(this.supplied, fact.id)) return computed;
    const supplied = this.readBase(fact);
    const usable = supplied.cause === undefined || supplied.cause === 'within-bounds';
    if (!usable) return computed;
    return disjoint(supplied.bounds, computed.bounds)
      ? this.conflicting(fact, 'the supplied value differs from what follows from the other facts')
      : narrowed(supplied, computed.bounds);
  }

  /** Rounds to the fact's step and clips to its limits. */
  private finish(fact: Fact, derived: Derived, inputs: readonly string[]): Reading {
    const { assumed, recorded } = derived;
    // A conclusion waits for facts, it does not follow from them: that they are none leaves it open.
    const follows = fact.from !== undefined && !('conclusion' in fact.from) && inputs.length > 0;
    const none = derived.none || (follows && inputs.every((id) => this.readings.get(id)?.none));
    const marks = { ...(none ? { none } : {}), ...(assumed ? { assumed } : {}), inputs };
    const whole = domain(fact, this.codesOf(fact), this.moment.asOf);
    if (none) return { fact, bounds: whole, recorded: FALSE, cause: 'no-entry', ...marks };
    const bounds = clip(derived.bounds, whole, fact.step, mayBeEmpty(fact));
    if (bounds === undefined) {
      this.report(fact, {
        code: 'impossible',
        message: 'what follows from the other facts lies outside its limits',
      });
      return { fact, bounds: whole, recorded: UNKNOWN, cause: 'impossible', ...marks };
    }
    return { fact, bounds, recorded, ...(isExact(bounds) ? {} : { cause: 'derived' as const }), ...marks };
  }
}

const mayBeEmpty = ({ type, from }: Fact): boolean =>
  type === 'number' && from !== undefined && ('least' in from || 'greatest' in from);
