import { inPeriod, readPatient } from '../evaluate/evaluate.ts';
import type { Case } from '../facts/case.ts';
import { momentOf } from '../facts/moment.ts';
import { type CaseReadings, readOption } from '../facts/readFacts.ts';
import type { Leaf, Plan } from '../plan/plan.ts';
import { sameJson } from '../release/digest.ts';
import type { Release } from '../release/release.ts';
import { type Column, ColumnWriter, leafPlanes } from './columns.ts';
import { readAlike } from './meaning.ts';
import { type Planes, put, Room } from './planes.ts';

/** Many cases, read once: a column a fact. What conditions make of them is kept, so that it is worked out once. */
export interface CaseColumns {
  readonly rows: number;
  /** None where the columns were opened from shared memory. */
  readonly cases: readonly Case[];
  /** The truth of a leaf over a fact of the patient, for every case. */
  leaf(leaf: Leaf): Planes;
  /** The columns of one option of a stock list. */
  option(set: string, kind: string, option: string): OptionColumns;
  /** Cases at a moment at which the set may not run. */
  outOfPeriod(set: string): Uint32Array;
  /**
   * These cases for another plan: what means the same is kept, only the rest is read again. Throws a RangeError where
   * that needs the cases and they are not here.
   */
  readFor(plan: Plan): CaseColumns;
}

interface OptionColumns {
  leaf(leaf: Leaf): Planes;
}

/** Reads many cases for one plan. Never throws on data; costs one reading of each case. */
export const readCases = (plan: Plan, cases: readonly Case[]): CaseColumns =>
  new Columns(plan, { cases, rows: cases.length, columns: [], closed: [] });

interface Kept {
  readonly column: Column;
  /** By what a leaf asks, for all plans that read the fact alike. */
  readonly leaves: Map<string, Planes>;
}

interface Given {
  readonly cases: readonly Case[];
  readonly rows: number;
  readonly columns: Iterable<readonly [fact: string, kept: Kept]>;
  readonly closed: Iterable<readonly [string, Uint32Array]>;
  readonly room?: Room;
}

/** Columns as they are held; whoever reads cases sees no more than {@link CaseColumns}. */
export class Columns implements CaseColumns {
  readonly cases: readonly Case[];
  readonly rows: number;
  readonly plan: Plan;
  readonly columns: Map<string, Kept>;
  private readonly options = new Map<string, OptionColumns>();
  /** By rule set. */
  private readonly closed: Map<string, Uint32Array>;
  /** Where the truths of leaves lie: like them it is shared by all plans that the cases were read for. */
  private readonly room: Room;

  constructor(plan: Plan, { cases, rows, columns, closed, room = new Room(rows) }: Given) {
    this.plan = plan;
    this.cases = cases;
    this.rows = rows;
    this.room = room;
    this.columns = new Map(columns);
    this.closed = new Map(closed);
    const needed = plan.patient.facts.map(({ leaves }) => leaves[0]!.fact);
    const missing = needed.filter((fact) => !this.columns.has(fact));
    if (missing.length > 0) this.read(missing);
  }

  leaf(leaf: Leaf): Planes {
    return leafOf(this.columns.get(leaf.fact)!, leaf, this.rows, this.room);
  }

  outOfPeriod(set: string): Uint32Array {
    const known = this.closed.get(set) ?? this.closedFor(set);
    this.closed.set(set, known);
    return known;
  }

  option(set: string, kind: string, option: string): OptionColumns {
    const key = `${set}/${kind}/${option}`;
    const known = this.options.get(key) ?? this.readOption(set, kind, option);
    this.options.set(key, known);
    return known;
  }

  readFor(plan: Plan): CaseColumns {
    if (plan === this.plan) return this;
    const { cases, rows, room } = this;
    const alike = readAlike(this.plan, plan);
    const columns = [...this.columns].filter(([fact]) => alike(fact));
    const closed = [...this.closed].filter(([set]) =>
      sameJson(bounded(plan, set)?.effectivePeriod, bounded(this.plan, set)?.effectivePeriod),
    );
    return new Columns(plan, { cases, rows, room, columns, closed });
  }

  /** The cases, for what cannot be told from their columns. */
  private get given(): readonly Case[] {
    if (this.cases.length < this.rows)
      throw new RangeError('the cases themselves are needed, and were not shared');
    return this.cases;
  }

  private closedFor(set: string): Uint32Array {
    const closed = this.room.bits();
    const release = bounded(this.plan, set);
    if (!release) return closed;
    this.given.forEach((patient, row) => {
      if (!inPeriod(release, momentOf(Object(patient) as Case).moment)) put(closed, row);
    });
    return closed;
  }

  private read(facts: readonly string[]): void {
    const places = facts.map((fact) => this.plan.patientFacts.places.get(fact)!);
    const writers = facts.map(() => new ColumnWriter(this.rows));
    this.given.forEach((patient, row) => {
      const { readings } = readPatient(this.plan, patient);
      for (let index = 0; index < places.length; index += 1) {
        writers[index]!.write(row, readings.undated(places[index]!)!);
      }
    });
    facts.forEach((fact, index) => {
      this.columns.set(fact, { column: writers[index]!.column(), leaves: new Map() });
    });
  }

  /** Options are read anew from the cases, one option at a time: few ask about them. */
  private readOption(set: string, kind: string, option: string): OptionColumns {
    const item = this.plan.sets
      .find(({ release }) => release.id === set)
      ?.stock[kind]?.find(({ id }) => id === option);
    const facts = [...new Set(this.plan.option.leaves.map(({ fact }) => fact))];
    const places = facts.map((fact) => this.plan.optionFacts.places.get(fact)!);
    const writers = facts.map(() => new ColumnWriter(this.rows));
    this.given.forEach((patient, row) => {
      const read: CaseReadings = readPatient(this.plan, patient);
      const { readings } = readOption(this.plan.optionFacts, read, item?.facts ?? {}, true);
      places.forEach((place, index) => {
        writers[index]!.write(row, readings.undated(place)!);
      });
    });
    const columns = new Map(
      facts.map((fact, index) => [fact, { column: writers[index]!.column(), leaves: new Map() }]),
    );
    return { leaf: (leaf) => leafOf(columns.get(leaf.fact)!, leaf, this.rows, this.room) };
  }
}

/** The release of a set that may run within a period alone. */
function bounded({ sets, allowed }: Plan, id: string): Release | undefined {
  const release = sets.find((set) => set.release.id === id)?.release;
  return release?.effectivePeriod && !allowed.has('out-of-period') ? release : undefined;
}

function leafOf({ column, leaves }: Kept, { key, test }: Leaf, rows: number, room: Room): Planes {
  const known = leaves.get(key) ?? leafPlanes(test, column, rows, room);
  leaves.set(key, known);
  return known;
}
