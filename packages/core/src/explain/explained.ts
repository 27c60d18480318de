import { type JudgedChoice, judge } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import { checkWord, type RuleTruths, ruleTruths, truthIn } from '../evaluate/outcomes.ts';
import { and, FALSE } from '../facts/truth.ts';
import type { PlanSet } from '../plan/plan.ts';
import { adviceOf, type JudgedSet } from './advice.ts';
import { Asker, openRecordsEmpty, type RuleAsk } from './ask.ts';
import type { Advice, RuleResult } from './assessment.ts';
import { preparedOf } from './prepared.ts';
import { Reasons } from './reasons.ts';
import { Shown } from './shown.ts';
import { statement } from './statement.ts';

/** How much of each statement of reasons: what decided, everything, or nothing. */
export type ReasonsWanted = 'deciding' | 'all' | 'none';

type Result = { -readonly [Key in keyof RuleResult]: RuleResult[Key] };

const CLOSED: RuleTruths = Object.freeze({ outcome: 'not-in-scope', scope: FALSE, when: FALSE });

/**
 * One evaluated case, explained piece by piece: what somebody asks for is built then, and is what stands in the
 * assessment. Keep the evaluation, not this: it remembers what it has put down.
 */
export class Explained {
  readonly evaluation: Evaluation;
  private readonly sets = new Map<PlanSet, JudgedSet>();
  private reasons: Reasons | undefined;
  private asking: Asker | undefined;

  constructor(evaluation: Evaluation) {
    this.evaluation = evaluation;
  }

  get asker(): Asker {
    this.asking ??= new Asker(this.evaluation);
    return this.asking;
  }

  /** A set with the truths of its rules; its options are judged when somebody looks at them. */
  judged(set: PlanSet): JudgedSet {
    const known = this.sets.get(set) ?? judgeSet(this.evaluation, set);
    this.sets.set(set, known);
    return known;
  }

  /** All advice of the case, in order. */
  advice(): Advice[] {
    return adviceOf(
      this.evaluation,
      this.evaluation.plan.sets.map((set) => this.judged(set)),
    );
  }

  /** One rule, by its place in its set. */
  result(set: PlanSet, index: number, ask: RuleAsk | undefined, wanted: ReasonsWanted): RuleResult {
    const plan = set.rules[index]!;
    const own = this.judged(set).truths[index]!;
    const isPlain = ask === undefined && (plan.expect === undefined || own.outcome !== 'undetermined');
    if (wanted === 'none' && isPlain) return plainResult(set, index, own);
    const out = headOf(set, index, own, () => openRecordsEmpty(set, plan, this.evaluation));
    if (ask !== undefined) out.asks = ask.asks;
    if (ask?.decides !== undefined) out.decides = ask.decides;
    if (wanted !== 'none') out.reasons = statement(this.statements(), set, plan, own, wanted === 'all');
    return out;
  }

  private statements(): Reasons {
    const { plan, truths, readings } = this.evaluation;
    this.reasons ??= new Reasons(truths, new Shown(plan, readings));
    return this.reasons;
  }
}

/** Truths of all rules of a set; its options are judged when somebody looks at them. */
function judgeSet(evaluation: Evaluation, set: PlanSet): JudgedSet {
  const truthOf = truthIn(evaluation.truths);
  const closed = evaluation.outOfPeriod.has(set.release.id);
  const truths = set.rules.map((rule) => (closed ? CLOSED : ruleTruths(set, rule, truthOf)));
  let choices: readonly JudgedChoice[] | undefined;
  return {
    set,
    truths,
    get choices() {
      const speaks = closed ? FALSE : and(truthOf(set.population), truthOf(set.gate));
      choices ??= Object.keys(set.stock).flatMap(
        (kind) => judge(set, kind, truths, evaluation.options(set.release.id, kind), speaks) ?? [],
      );
      return choices;
    },
  };
}

/** What is said of a rule before what it asks for and its reasons; put down key by key, for there are many. */
function headOf(
  { rules }: PlanSet,
  index: number,
  truths: RuleTruths,
  everyOpenRecordEmpty: () => boolean,
): Result {
  const { rule, expect } = rules[index]!;
  const out = { id: rule.id, title: rule.title, outcome: truths.outcome } as Result;
  if (expect !== undefined) out.check = checkWord(truths, everyOpenRecordEmpty);
  if (rule.concludes !== undefined) out.concludes = rule.concludes;
  out.locked = rule.locked === true;
  if (rule.local) out.local = rule.local;
  return out;
}

/** A rule of which there is nothing to say but its outcome is said of all cases in one object. */
function plainResult(set: PlanSet, index: number, truths: RuleTruths): RuleResult {
  const { results } = preparedOf(set).rule(index);
  results[truths.outcome] ??= Object.freeze(headOf(set, index, truths, () => false));
  return results[truths.outcome]!;
}
