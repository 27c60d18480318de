import { inPeriod, readPatient } from '../evaluate/evaluate.ts';
import type { Case } from '../facts/case.ts';
import { momentOf } from '../facts/moment.ts';
import { type CaseReadings, readOption } from '../facts/readFacts.ts';
import type { Leaf, Plan } from '../plan/plan.ts';
import { type Column, ColumnWriter, leafPlanes } from './columns.ts';
import { readAlike } from './meaning.ts';
import { type Planes, put, Room } from './planes.ts';

/** Many cases, read once: a column a fact. What conditions make of them is kept, so that it is worked out once. */
export interface CaseColumns {
  readonly rows: number;
  readonly cases: readonly Case[];
  /** The truth of a leaf over a fact of the patient, for every case. */
  leaf(leaf: Leaf): Planes;
  /** The columns of one option of a stock list. */
  option(set: string, kind: string, option: string): OptionColumns;
  /** Cases at a moment at which the set may not run. */
  outOfPeriod(set: string): Uint32Array;
  /** These cases for another plan: what means the same is kept, only the rest is read again. */
  readFor(plan: Plan): CaseColumns;
}

interface OptionColumns {
  leaf(leaf: Leaf): Planes;
}

/** Reads many cases for one plan. Never throws on data; costs one reading of each case. */
export const readCases = (plan: Plan, cases: readonly Case[]): CaseColumns => new Columns(plan, cases);

interface Kept {
  readonly column: Column;
  /** By what a leaf asks, for all plans that read the fact alike. */
  readonly leaves: Map<string, Planes>;
}

class Columns implements CaseColumns {
  readonly cases: readonly Case[];
  readonly rows: number;
  private readonly plan: Plan;
  private readonly columns = new Map<string, Kept>();
  private readonly options = new Map<string, OptionColumns>();
  /** By rule set. */
  private readonly closed = new Map<string, Uint32Array>();
  /** Where the truths of leaves lie: like them it is shared by all plans that the cases were read for. */
  private readonly room: Room;

  constructor(plan: Plan, cases: readonly Case[], earlier?: Columns) {
    this.plan = plan;
    this.cases = cases;
    this.rows = cases.length;
    this.room = earlier?.room ?? new Room(this.rows);
    if (earlier) {
      const alike = readAlike(earlier.plan, plan);
      for (const [fact, kept] of earlier.columns) if (alike(fact)) this.columns.set(fact, kept);
    }
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
    return plan === this.plan ? this : new Columns(plan, this.cases, this);
  }

  private closedFor(set: string): Uint32Array {
    const release = this.plan.sets.find((one) => one.release.id === set)?.release;
    const closed = this.room.bits();
    if (!release?.effectivePeriod || this.plan.allowed.has('out-of-period')) return closed;
    this.cases.forEach((patient, row) => {
      if (!inPeriod(release, momentOf(Object(patient) as Case).moment)) put(closed, row);
    });
    return closed;
  }

  private read(facts: readonly string[]): void {
    const places = facts.map((fact) => this.plan.patientFacts.places.get(fact)!);
    const writers = facts.map(() => new ColumnWriter(this.rows));
    this.cases.forEach((patient, row) => {
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
    this.cases.forEach((patient, row) => {
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

function leafOf({ column, leaves }: Kept, { key, test }: Leaf, rows: number, room: Room): Planes {
  const known = leaves.get(key) ?? leafPlanes(test, column, rows, room);
  leaves.set(key, known);
  return known;
}
