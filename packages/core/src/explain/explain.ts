import { comply } from '../evaluate/compliance.ts';
import { conclude } from '../evaluate/conclusion.ts';
import { type Evaluation, evaluate } from '../evaluate/evaluate.ts';
import { type RuleTruths, truthIn } from '../evaluate/outcomes.ts';
import type { Case } from '../facts/case.ts';
import { FALSE, TRUE, type Truth } from '../facts/truth.ts';
import type { Plan, PlanSet } from '../plan/plan.ts';
import type { RuleAsk } from './ask.ts';
import type { Assessment, ConclusionResult, RuleResult, RuleSetResult } from './assessment.ts';
import { CAUTIONS, ENGINE } from './caution.ts';
import { choiceResult } from './choiceResult.ts';
import { Explained, type ReasonsWanted } from './explained.ts';
import { preparedOf } from './prepared.ts';
import { questions, type Waiting } from './questions.ts';

export interface ExplainOptions {
  /** How much of each statement of reasons: what decided, everything, or nothing. */
  readonly reasons?: ReasonsWanted;
  /** False leaves `facts` of every option of a choice empty, for callers that show none of them. */
  readonly optionFacts?: boolean;
  /** False leaves out what would settle an undecided rule, and every question, for callers that read neither. */
  readonly asks?: boolean;
}

/** Evaluates one case and explains what was found. */
export const assess = (plan: Plan, patient: Case, options: ExplainOptions = {}): Assessment =>
  explain(evaluate(plan, patient), options);

/** Builds the assessment of an evaluated case: plain JSON with a fixed key order, the same bytes every time. */
export function explain(evaluation: Evaluation, options: ExplainOptions = {}): Assessment {
  const { plan, case: patient } = evaluation;
  const explained = new Explained(evaluation);
  const waiting: Waiting[] = [];
  const ruleSets = plan.sets.map((set) => setResult(explained, set, waiting, options));
  const stated = (typeof patient === 'object' && patient !== null ? patient : {}) as Partial<Case>;
  return {
    case: {
      ...(typeof stated.id === 'string' ? { id: stated.id } : {}),
      timeZone: typeof stated.timeZone === 'string' ? stated.timeZone : '',
      ...(typeof stated.recordedAt === 'string' ? { recordedAt: stated.recordedAt } : {}),
    },
    asOf: typeof stated.asOf === 'string' ? stated.asOf : '',
    engine: ENGINE,
    caution: CAUTIONS,
    adoption: adoptionShown(plan),
    ruleSets,
    advice: explained.advice(),
    ask: questions(evaluation, waiting),
    problems: evaluation.problems,
    counts: counted(ruleSets),
  };
}

function counted(ruleSets: readonly RuleSetResult[]): Assessment['counts'] {
  let [applies, undetermined, notInScope] = [0, 0, 0];
  for (const { rules } of ruleSets) {
    for (const { outcome } of rules) {
      if (outcome === 'applies') applies += 1;
      else if (outcome === 'undetermined') undetermined += 1;
      else if (outcome === 'not-in-scope') notInScope += 1;
    }
  }
  return { applies, undetermined, notInScope };
}

function adoptionShown({ adoption }: Plan): Assessment['adoption'] {
  if (!adoption) return null;
  const { organisation, id, approverRole, date, reviewDue, releases } = adoption;
  return { organisation, id, approverRole, date, reviewDue, releases };
}

function setResult(
  explained: Explained,
  set: PlanSet,
  waiting: Waiting[],
  { reasons = 'deciding', optionFacts = true, asks = true }: ExplainOptions,
): RuleSetResult {
  const { release } = set;
  const { evaluation } = explained;
  const judged = explained.judged(set);
  const truthOf = truthIn(evaluation.truths);
  const closed = evaluation.outOfPeriod.has(release.id);
  const population = closed ? FALSE : truthOf(set.population);
  const conclusion = release.shape === 'decision' ? concluded(explained, set, closed) : undefined;
  const compliance = release.shape === 'checklist' ? comply(set, judged.truths, truthOf) : undefined;
  const rules: RuleResult[] = [];
  for (let index = 0; index < set.rules.length; index += 1) {
    const own = judged.truths[index]!;
    const ask = asks ? asked(explained, set, index, own, conclusion?.id, waiting) : undefined;
    rules.push(explained.result(set, index, own, ask, reasons));
  }
  return {
    id: release.id,
    version: release.version,
    digest: set.digest,
    title: release.title,
    shape: release.shape,
    status: set.standing,
    intendedUse: release.intendedUse,
    users: release.users,
    exclusions: release.exclusions,
    limits: release.limits,
    population: populationWord(set, population, closed),
    ...outside(set, population, closed),
    ...(release.amendment ? { amendment: release.amendment } : {}),
    ...(conclusion ? { conclusion } : {}),
    ...(compliance ? { compliance } : {}),
    ...(release.shape === 'choice'
      ? { choices: judged.choices.map((choice) => choiceResult(evaluation, set, choice, optionFacts)) }
      : {}),
    rules,
  };
}

function concluded(explained: Explained, set: PlanSet, closed: boolean): ConclusionResult {
  if (closed) return { settled: true, possible: [] };
  const { truths } = explained.judged(set);
  return conclude(set, (rule) => truths[rule]!.outcome, truthIn(explained.evaluation.truths));
}

/** What would settle a rule, where it is undetermined; notes what it, or an option that it judges, waits for. */
function asked(
  explained: Explained,
  set: PlanSet,
  index: number,
  own: RuleTruths,
  conclusion: string | undefined,
  waiting: Waiting[],
): RuleAsk | undefined {
  const plan = set.rules[index]!;
  if (own.outcome === 'undetermined') {
    const ask = explained.asker.rule(set, plan, own);
    note(set, index, ask.first, conclusion, waiting);
    return ask;
  }
  if (own.outcome === 'applies' && plan.rule.of !== undefined) {
    const asks = explained.asker.options(set, plan);
    if (asks.length > 0) note(set, index, asks, conclusion, waiting);
  }
  return undefined;
}

/** A rule that could no longer change a decision holds nothing up, unless it is a stop. */
function note(
  set: PlanSet,
  index: number,
  asks: RuleAsk['asks'],
  conclusion: string | undefined,
  waiting: Waiting[],
): void {
  const prepared = preparedOf(set);
  const { name: rule, isStop, concludesAt } = prepared.rule(index);
  const matters =
    isStop ||
    conclusion === undefined ||
    set.rules[index]!.rule.concludes === undefined ||
    concludesAt < prepared.place(conclusion);
  if (matters) waiting.push({ rule, isStop, asks });
}

function populationWord(set: PlanSet, truth: Truth, closed: boolean): RuleSetResult['population'] {
  if (closed) return 'out';
  if (set.population === undefined) return 'not-limited';
  return truth === TRUE ? 'in' : truth === FALSE ? 'out' : 'not-established';
}

function outside(set: PlanSet, population: Truth, closed: boolean): { outside?: string } {
  if (closed) return { outside: 'This rule set is outside its effective period and was not run.' };
  return population === FALSE && set.release.population ? { outside: set.release.population.otherwise } : {};
}
