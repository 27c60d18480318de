import type { Problem } from '../explain/assessment.ts';
import type { Case } from '../facts/case.ts';
import { NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import type { Moment } from '../facts/moment.ts';
import type { Concluder } from '../facts/reader.ts';
import { type CaseReadings, readFacts } from '../facts/readFacts.ts';
import type { Reading } from '../facts/reading.ts';
import type { Readings } from '../facts/readings.ts';
import { localDay, parseDay } from '../facts/time.ts';
import type { Plan } from '../plan/plan.ts';
import { run } from '../plan/run.ts';
import type { Release } from '../release/release.ts';
import { Concluded } from './conclusion.ts';
import { type OptionEvaluation, Options } from './options.ts';

/** Everything that follows for one case, kept small: readings and one truth a node. Reasons are built when read. */
export interface Evaluation {
  readonly plan: Plan;
  readonly case: Case;
  readonly readings: Readings;
  readonly truths: Uint8Array;
  readonly problems: readonly Problem[];
  readonly asOf: number;
  readonly zone: string;
  /** Options by rule set and stock list; the item in the hand last. */
  options(set: string, kind: string): readonly OptionEvaluation[];
  /** What was read for one option: patient facts, its own, and what is derived from both. */
  optionReadings(set: string, kind: string, option: string): ReadonlyMap<string, Reading>;
  /** Sets outside their effective period, which may not run. */
  readonly outOfPeriod: ReadonlySet<string>;
}

export interface EvaluateOptions {
  /** Evaluate at this instant (ms since 1970) instead of the case's own; the forecast does. */
  readonly asOf?: number;
}

/** Evaluates one case. Pure and synchronous; never throws on data. */
export function evaluate(plan: Plan, patient: Case, options: EvaluateOptions = {}): Evaluation {
  const truths = plan.blank.truths.slice();
  const at = options.asOf === undefined ? undefined : { asOf: options.asOf };
  const read = readFacts(plan.patientFacts, plan.blank.row, patient, concluder(plan, truths), at);
  run(plan.patient, read.readings.row, truths, plan.blank.row);
  return new CaseEvaluation(plan, patient, read, truths);
}

/** Everything that a case says about the patient, and no judgement; rule sets that a fact rests on are judged. */
export const readPatient = (plan: Plan, patient: Case): CaseReadings =>
  readFacts(plan.patientFacts, plan.blank.row, patient, concluder(plan, undefined));

const NONE: ReadonlySet<string> = new Set();

/** The case as it is now, as far as it is looked at later: whoever gave it may change it. */
function kept(patient: Case): Case {
  if (typeof patient !== 'object' || patient === null) return patient;
  const { chosen, responses } = patient;
  return {
    ...patient,
    ...(chosen === undefined ? {} : { chosen: copyOf(chosen) }),
    ...(responses === undefined ? {} : { responses: copyOf(responses) }),
  };
}

function copyOf<T>(value: T): T {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(copyOf) as T;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, copyOf(inner)])) as T;
}

/** The options of a choice are looked at when somebody asks for them, or for everything that was found wrong. */
class CaseEvaluation implements Evaluation {
  readonly plan: Plan;
  readonly case: Case;
  readonly truths: Uint8Array;
  readonly outOfPeriod: ReadonlySet<string>;
  private readonly read: CaseReadings;
  private readonly ofPeriod: ReadonlySet<string>;
  private looked: Options | undefined;

  constructor(plan: Plan, patient: Case, read: CaseReadings, truths: Uint8Array) {
    this.plan = plan;
    this.case = kept(patient);
    this.read = read;
    this.truths = truths;
    const closed = closedSets(plan, read.moment);
    this.outOfPeriod = plan.allowed.has('out-of-period') ? NONE : closed;
    this.ofPeriod = closed;
  }

  get readings(): Readings {
    return this.read.readings;
  }

  get asOf(): number {
    return this.read.moment.asOf;
  }

  get zone(): string {
    return this.read.moment.zone;
  }

  get problems(): readonly Problem[] {
    const ofPeriod = [...this.ofPeriod].map((id) => ({
      code: 'out-of-period',
      message: `${id} is outside its effective period`,
    }));
    return [...this.read.problems, ...this.ofOptions.problems, ...ofPeriod];
  }

  options(set: string, kind: string): readonly OptionEvaluation[] {
    return this.ofOptions.list(set, kind).options;
  }

  optionReadings(set: string, kind: string, option: string): ReadonlyMap<string, Reading> {
    return this.options(set, kind).find(({ id }) => id === option)?.readings ?? new Map();
  }

  private get ofOptions(): Options {
    this.looked ??= new Options(this.plan, this.read, this.truths, this.case);
    return this.looked;
  }
}

/** The sets that may not run at the moment of a case; hardly any plan has one. */
function closedSets(plan: Plan, moment: Moment): ReadonlySet<string> {
  let closed: Set<string> | undefined;
  for (const { release } of plan.sets) {
    if (inPeriod(release, moment)) continue;
    closed ??= new Set();
    closed.add(release.id);
  }
  return closed ?? NONE;
}

/** Evaluates a rule set that others read, on the facts read so far: its own come first in the order of reading. */
const concluder =
  (plan: Plan, own: Uint8Array | undefined): Concluder =>
  (id, { row }, moment) => {
    const read = plan.concluding.get(id);
    if (!read || (!plan.allowed.has('out-of-period') && !inPeriod(read.set.release, moment))) {
      return NOTHING_CONCLUDED;
    }
    const truths = own ?? plan.blank.truths.slice();
    run(read.program, row, truths, plan.blank.row);
    return new Concluded(read.set, truths);
  };

export function inPeriod(release: Release, moment: Moment): boolean {
  const period = release.effectivePeriod;
  if (!period || !Number.isFinite(moment.asOf)) return true;
  const day = localDay(moment.asOf, moment.zone);
  const [start, end] = [parseDay(period.start ?? ''), parseDay(period.end ?? '')];
  return (start === undefined || day >= start) && (end === undefined || day <= end);
}
