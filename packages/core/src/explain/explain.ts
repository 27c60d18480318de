import { judge } from '../evaluate/choice.ts';
import { comply } from '../evaluate/compliance.ts';
import { conclude } from '../evaluate/conclusion.ts';
import { type Evaluation, evaluate } from '../evaluate/evaluate.ts';
import { checkWord, type RuleTruths, ruleTruths, truthIn } from '../evaluate/outcomes.ts';
import type { Case } from '../facts/case.ts';
import { and, FALSE, TRUE, type Truth } from '../facts/truth.ts';
import type { Plan, PlanRule, PlanSet } from '../plan/plan.ts';
import { adviceOf, type JudgedSet } from './advice.ts';
import { Asker, openRecordsEmpty, questions, type RuleAsk, type Waiting } from './ask.ts';
import type { Assessment, RuleResult, RuleSetResult } from './assessment.ts';
import { CAUTIONS, ENGINE } from './caution.ts';
import { choiceResult } from './choiceResult.ts';
import { statement } from './statement.ts';

export interface ExplainOptions {
  /** How much of each statement of reasons: what decided, everything, or nothing. */
  readonly reasons?: 'deciding' | 'all' | 'none';
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
  const asker = new Asker(evaluation);
  const judged = plan.sets.map((set) => judgeSet(evaluation, set));
  const waiting: Waiting[] = [];
  const ruleSets = judged.map((set) => setResult(evaluation, set, asker, waiting, options));
  const rules = ruleSets.flatMap((set) => set.rules);
  const count = (outcome: RuleResult['outcome']): number =>
    rules.filter((rule) => rule.outcome === outcome).length;
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
    advice: adviceOf(evaluation, judged),
    ask: questions(evaluation, waiting),
    problems: evaluation.problems,
    counts: {
      applies: count('applies'),
      undetermined: count('undetermined'),
      notInScope: count('not-in-scope'),
    },
  };
}

function judgeSet(evaluation: Evaluation, set: PlanSet): JudgedSet {
  const truthOf = truthIn(evaluation.truths);
  const closed: RuleTruths = { outcome: 'not-in-scope', scope: FALSE, when: FALSE };
  const truths = set.rules.map((rule) =>
    evaluation.outOfPeriod.has(set.release.id) ? closed : ruleTruths(set, rule, truthOf),
  );
  const speaks = evaluation.outOfPeriod.has(set.release.id)
    ? FALSE
    : and(truthOf(set.population), truthOf(set.gate));
  const choices = Object.keys(set.stock).flatMap(
    (kind) => judge(set, kind, truths, evaluation.options(set.release.id, kind), speaks) ?? [],
  );
  return { set, truths, choices };
}

function adoptionShown({ adoption }: Plan): Assessment['adoption'] {
  if (!adoption) return null;
  const { organisation, id, approverRole, date, reviewDue, releases } = adoption;
  return { organisation, id, approverRole, date, reviewDue, releases };
}

function setResult(
  evaluation: Evaluation,
  { set, truths, choices }: JudgedSet,
  asker: Asker,
  waiting: Waiting[],
  { reasons = 'deciding', optionFacts = true, asks = true }: ExplainOptions,
): RuleSetResult {
  const { release } = set;
  const truthOf = truthIn(evaluation.truths);
  const closed = evaluation.outOfPeriod.has(release.id);
  const population = closed ? FALSE : truthOf(set.population);
  const decided = closed
    ? { settled: true, possible: [] }
    : conclude(set, (_, index) => truths[index]!.outcome, truthOf);
  const conclusion = release.shape === 'decision' ? decided : undefined;
  const compliance = release.shape === 'checklist' ? comply(set, truths, truthOf) : undefined;
  const rules = set.rules.map((plan, index) => {
    const own = truths[index]!;
    const ask = asks && own.outcome === 'undetermined' ? asker.rule(set, plan, own) : undefined;
    const asked = ask
      ? { asks: ask.first }
      : asks && own.outcome === 'applies'
        ? openOptions(asker, set, plan)
        : undefined;
    if (asked && matters(plan, conclusion?.id, set)) {
      const isStop = plan.rule.locked === true || plan.rule.advice?.indicator === 'critical';
      waiting.push({ rule: `${release.id}/${plan.rule.id}`, isStop, ...asked });
    }
    return ruleResult(evaluation, set, plan, own, ask, reasons);
  });
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
      ? { choices: choices.map((choice) => choiceResult(evaluation, set, choice, optionFacts)) }
      : {}),
    rules,
  };
}

/** A rule that could no longer change a decision holds nothing up, unless it is a stop. */
function matters({ rule }: PlanRule, concluded: string | undefined, set: PlanSet): boolean {
  if (rule.locked || rule.advice?.indicator === 'critical' || rule.concludes === undefined) return true;
  const place = (id: string | undefined): number => {
    const at = (set.release.conclusions ?? []).findIndex((conclusion) => conclusion.id === id);
    return at === -1 ? Infinity : at;
  };
  return place(rule.concludes) < place(concluded) || concluded === undefined;
}

function openOptions(asker: Asker, set: PlanSet, plan: PlanRule): RuleAsk | undefined {
  const found = asker.options(set, plan);
  return found.asks.length > 0 ? found : undefined;
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

function ruleResult(
  evaluation: Evaluation,
  set: PlanSet,
  plan: PlanRule,
  truths: RuleTruths,
  ask: RuleAsk | undefined,
  reasons: NonNullable<ExplainOptions['reasons']>,
): RuleResult {
  const { rule } = plan;
  return {
    id: rule.id,
    title: rule.title,
    outcome: truths.outcome,
    ...(plan.expect ? { check: checkWord(truths, () => openRecordsEmpty(set, plan, evaluation)) } : {}),
    ...(rule.concludes === undefined ? {} : { concludes: rule.concludes }),
    locked: rule.locked === true,
    ...(rule.local ? { local: rule.local } : {}),
    ...(ask ? { asks: ask.asks } : {}),
    ...(ask?.decides ? { decides: ask.decides } : {}),
    ...(reasons === 'none' ? {} : { reasons: statement(evaluation, set, plan, truths, reasons === 'all') }),
  };
}
