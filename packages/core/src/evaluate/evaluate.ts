import type { Problem } from '../explain/assessment.ts';
import type { Case, CaseValue } from '../facts/case.ts';
import { type ConclusionRead, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import type { Moment } from '../facts/moment.ts';
import type { Concluder } from '../facts/reader.ts';
import { type CaseReadings, readFacts, readOption } from '../facts/readFacts.ts';
import type { Reading } from '../facts/reading.ts';
import { localDay, parseDay } from '../facts/time.ts';
import type { Plan, PlanSet } from '../plan/plan.ts';
import { run } from '../plan/run.ts';
import type { Release } from '../release/release.ts';
import { concludeSet } from './conclusion.ts';

/** One option of a stock list, or the item in the hand, with what was read and every truth for it. */
export interface OptionEvaluation {
  readonly id: string;
  readonly title: string;
  readonly readings: ReadonlyMap<string, Reading>;
  readonly truths: Uint8Array;
}

/** The item in the hand goes under this name beside the options. */
export const CHOSEN = 'chosen';

/** Everything that follows for one case, kept small: readings and one truth a node. Reasons are built when read. */
export interface Evaluation {
  readonly plan: Plan;
  readonly case: Case;
  readonly readings: ReadonlyMap<string, Reading>;
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

/** The options of a stock list are looked at when somebody asks for them, or for everything that was found wrong. */
class CaseEvaluation implements Evaluation {
  readonly plan: Plan;
  readonly case: Case;
  readonly truths: Uint8Array;
  readonly outOfPeriod: ReadonlySet<string>;
  private readonly read: CaseReadings;
  private readonly ofPeriod: readonly Problem[];
  private readonly looked = new Map<string, OptionsRead>();

  constructor(plan: Plan, patient: Case, read: CaseReadings, truths: Uint8Array) {
    this.plan = plan;
    this.case = patient;
    this.read = read;
    this.truths = truths;
    const closed = plan.sets
      .map(({ release }) => release)
      .filter((release) => !inPeriod(release, read.moment));
    this.ofPeriod = closed.map(({ id }) => ({
      code: 'out-of-period',
      message: `${id} is outside its effective period`,
    }));
    this.outOfPeriod = new Set(plan.allowed.has('out-of-period') ? [] : closed.map(({ id }) => id));
  }

  get readings(): ReadonlyMap<string, Reading> {
    return this.read.readings;
  }

  get asOf(): number {
    return this.read.moment.asOf;
  }

  get zone(): string {
    return this.read.moment.zone;
  }

  get problems(): readonly Problem[] {
    const ofOptions = this.plan.sets.flatMap((set) =>
      Object.keys(set.stock).flatMap((kind) => this.optionsOf(set, kind).problems),
    );
    return [...this.read.problems, ...ofOptions, ...this.ofPeriod];
  }

  options(set: string, kind: string): readonly OptionEvaluation[] {
    const found = this.plan.sets.find(({ release }) => release.id === set);
    return found && Object.hasOwn(found.stock, kind) ? this.optionsOf(found, kind).options : [];
  }

  optionReadings(set: string, kind: string, option: string): ReadonlyMap<string, Reading> {
    return this.options(set, kind).find(({ id }) => id === option)?.readings ?? new Map();
  }

  private optionsOf(set: PlanSet, kind: string): OptionsRead {
    const key = `${set.release.id}/${kind}`;
    const known = this.looked.get(key);
    if (known) return known;
    const read = readOptions(this.plan, set, kind, this.read, this.truths, this.case);
    this.looked.set(key, read);
    return read;
  }
}

/** Evaluates the rule sets that others read, on the facts read so far: theirs come first in the order of reading. */
function concluder(plan: Plan, own: Uint8Array | undefined): Concluder {
  const known = new Map<string, ConclusionRead>();
  const conclude: Concluder = (id, readings, moment) => {
    const set = plan.sets.find(({ release }) => release.id === id);
    const program = plan.concluding.get(id);
    if (!set || !program || (!plan.allowed.has('out-of-period') && !inPeriod(set.release, moment))) {
      return NOTHING_CONCLUDED;
    }
    const truths = own ?? plan.blank.truths.slice();
    run(program, readings.row, truths, plan.blank.row);
    return concludeSet(set, truths);
  };
  return (id, readings, moment) => {
    const found = known.get(id) ?? conclude(id, readings, moment);
    known.set(id, found);
    return found;
  };
}

interface OptionsRead {
  readonly options: readonly OptionEvaluation[];
  readonly problems: readonly Problem[];
}

/** Every option of one stock list, and the item in the hand. */
function readOptions(
  plan: Plan,
  set: PlanSet,
  kind: string,
  patientReadings: CaseReadings,
  patientTruths: Uint8Array,
  patient: Case,
): OptionsRead {
  const problems: Problem[] = [];
  const one = (
    id: string,
    title: string,
    facts: Readonly<Record<string, unknown>>,
    listed = true,
  ): OptionEvaluation => {
    const read = readOption(plan.optionFacts, patientReadings, facts, listed);
    for (const problem of read.problems)
      problems.push({ ...problem, message: `${kind} ${id}: ${problem.message}` });
    const truths = patientTruths.slice();
    run(plan.option, read.readings.row, truths);
    return { id, title, readings: read.readings, truths };
  };
  const stock = set.stock[kind] ?? [];
  const options = stock.map((item) => one(item.id, item.title, item.facts));
  const chosen = chosenOf(patient, kind);
  if (chosen === undefined) return { options, problems };
  const inHand = (item: OptionEvaluation): OptionsRead => ({ options: [...options, item], problems });
  if (typeof chosen !== 'string') return inHand(one(CHOSEN, 'the item in the hand', chosen, false));
  const item = stock.find((entry) => entry.id === chosen);
  if (item) return inHand(one(CHOSEN, item.title, item.facts));
  problems.push({ code: 'unknown-option', message: `the chosen ${kind} ${chosen} is not in the stock list` });
  return { options, problems };
}

function chosenOf(patient: Case, kind: string): string | Readonly<Record<string, CaseValue>> | undefined {
  const chosen: unknown = (patient as unknown as Partial<Case> | null)?.chosen;
  if (typeof chosen !== 'object' || chosen === null || !Object.hasOwn(chosen, kind)) return undefined;
  const item = (chosen as Readonly<Record<string, unknown>>)[kind];
  if (typeof item === 'string') return item;
  return typeof item === 'object' && item !== null && !Array.isArray(item)
    ? (item as Readonly<Record<string, CaseValue>>)
    : undefined;
}

export function inPeriod(release: Release, moment: Moment): boolean {
  const period = release.effectivePeriod;
  if (!period || !Number.isFinite(moment.asOf)) return true;
  const day = localDay(moment.asOf, moment.zone);
  const [start, end] = [parseDay(period.start ?? ''), parseDay(period.end ?? '')];
  return (start === undefined || day >= start) && (end === undefined || day <= end);
}
