import { inPeriod, readPatient } from '../evaluate/evaluate.ts';
import type { Case } from '../facts/case.ts';
import { type CaseReadings, readOption } from '../facts/readFacts.ts';
import type { Leaf, Plan } from '../plan/plan.ts';
import { type Column, ColumnWriter, leafPlanes } from './columns.ts';
import { meanings } from './meaning.ts';
import { type Planes, put, wordsFor } from './planes.ts';

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
  readonly meaning: string;
  readonly leaves: Map<string, Planes>;
}

class Columns implements CaseColumns {
  readonly cases: readonly Case[];
  readonly rows: number;
  private readonly plan: Plan;
  private readonly meanings: ReadonlyMap<string, string>;
  private readonly columns = new Map<string, Kept>();
  private readonly closed = new Map<string, Uint32Array>();
  private readonly options = new Map<string, OptionColumns>();

  constructor(plan: Plan, cases: readonly Case[], earlier?: Columns) {
    this.plan = plan;
    this.cases = cases;
    this.rows = cases.length;
    this.meanings = meanings(plan);
    const needed = new Set(plan.patient.leaves.map(({ fact }) => fact));
    for (const [fact, kept] of earlier?.columns ?? []) {
      if (kept.meaning === this.meanings.get(fact)) this.columns.set(fact, kept);
    }
    const missing = [...needed].filter((fact) => !this.columns.has(fact));
    const periods = plan.sets.filter(({ release }) => release.effectivePeriod !== undefined);
    if (missing.length > 0 || periods.length > 0) this.read(missing, periods);
  }

  leaf({ fact, test }: Leaf): Planes {
    return leafOf(this.columns.get(fact)!, test, this.rows);
  }

  outOfPeriod(set: string): Uint32Array {
    return this.closed.get(set) ?? new Uint32Array(wordsFor(this.rows));
  }

  option(set: string, kind: string, option: string): OptionColumns {
    const key = `${set}/${kind}/${option}`;
    const known = this.options.get(key) ?? this.readOption(set, kind, option);
    this.options.set(key, known);
    return known;
  }

  readFor(plan: Plan): CaseColumns {
    return new Columns(plan, this.cases, this);
  }

  private read(facts: readonly string[], periods: Plan['sets']): void {
    const places = facts.map((fact) => this.plan.patientFacts.places.get(fact)!);
    const writers = facts.map(() => new ColumnWriter(this.rows));
    const closed = periods.map(() => new Uint32Array(wordsFor(this.rows)));
    this.cases.forEach((patient, row) => {
      const { readings, moment } = readPatient(this.plan, patient);
      for (let index = 0; index < places.length; index += 1) {
        writers[index]!.write(row, readings.undated(places[index]!)!);
      }
      periods.forEach(({ release }, index) => {
        if (!inPeriod(release, moment)) put(closed[index]!, row);
      });
    });
    facts.forEach((fact, index) => {
      this.columns.set(fact, keep(writers[index]!, this.meanings.get(fact)!));
    });
    periods.forEach(({ release }, index) => {
      this.closed.set(release.id, closed[index]!);
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
    const columns = new Map(facts.map((fact, index) => [fact, keep(writers[index]!, '')]));
    return { leaf: ({ fact, test }) => leafOf(columns.get(fact)!, test, this.rows) };
  }
}

const keep = (writer: ColumnWriter, meaning: string): Kept => ({
  column: writer.column(),
  meaning,
  leaves: new Map(),
});

function leafOf({ column, leaves }: Kept, test: Leaf['test'], rows: number): Planes {
  const key = JSON.stringify(test, (_, value: unknown) => (value instanceof Set ? [...value] : value));
  const known = leaves.get(key) ?? leafPlanes(test, column, rows);
  leaves.set(key, known);
  return known;
}
