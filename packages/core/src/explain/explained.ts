import { type JudgedChoice, judge } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import { checkWord, type RuleTruths, ruleTruths, truthIn } from '../evaluate/outcomes.ts';
import { and, FALSE } from '../facts/truth.ts';
import type { PlanRule, PlanSet } from '../plan/plan.ts';
import { adviceOf, type JudgedSet } from './advice.ts';
import { Asker, type RuleAsk } from './ask.ts';
import type { Advice, CheckWord, RuleReasons, RuleResult } from './assessment.ts';
import { preparedOf } from './prepared.ts';
import { openRecordsEmpty } from './questions.ts';
import { Reasons } from './reasons.ts';
import { Shown } from './shown.ts';
import { statement } from './statement.ts';

/** How much of each statement of reasons: what decided, everything, or nothing. */
export type ReasonsWanted = 'deciding' | 'all' | 'none';

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
    let known = this.sets.get(set);
    if (!known) {
      known = judgeSet(this.evaluation, set);
      this.sets.set(set, known);
    }
    return known;
  }

  /** All advice of the case, in order. */
  advice(): Advice[] {
    return adviceOf(
      this.evaluation,
      this.evaluation.plan.sets.map((set) => this.judged(set)),
    );
  }

  /** One rule, by its place in its set, with its truths. */
  result(
    set: PlanSet,
    index: number,
    own: RuleTruths,
    ask: RuleAsk | undefined,
    wanted: ReasonsWanted,
  ): RuleResult {
    const plan = set.rules[index]!;
    const reasons =
      wanted === 'none' ? undefined : statement(this.statements(), set, plan, own, wanted === 'all');
    if (plan.expect !== undefined && own.outcome === 'undetermined') {
      const check = checkWord(own, () => openRecordsEmpty(set, plan, this.evaluation));
      return resultOf(plan, own, check, ask, reasons);
    }
    if (reasons === undefined && ask === undefined) return plainResult(set, index, own);
    return resultOf(plan, own, undefined, ask, reasons);
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

/** Most rules have few parts, and a case has hundreds of rules: those are put down as one literal. */
function resultOf(
  { rule, expect }: PlanRule,
  truths: RuleTruths,
  check: CheckWord | undefined,
  ask: RuleAsk | undefined,
  reasons: RuleReasons | undefined,
): RuleResult {
  const { id, title, concludes, local } = rule;
  const { outcome } = truths;
  const locked = rule.locked === true;
  if (expect === undefined && concludes === undefined && !local && ask === undefined && reasons !== undefined)
    return { id, title, outcome, locked, reasons };
  return {
    id,
    title,
    outcome,
    ...(expect === undefined ? {} : { check: check ?? checkWord(truths, () => false) }),
    ...(concludes === undefined ? {} : { concludes }),
    locked,
    ...(local ? { local } : {}),
    ...(ask === undefined ? {} : { asks: ask.asks }),
    ...(ask?.decides === undefined ? {} : { decides: ask.decides }),
    ...(reasons === undefined ? {} : { reasons }),
  };
}

/** A rule of which there is nothing to say but its outcome is said of all cases in one object. */
function plainResult(set: PlanSet, index: number, truths: RuleTruths): RuleResult {
  const { results } = preparedOf(set).rule(index);
  results[truths.outcome] ??= Object.freeze(
    resultOf(set.rules[index]!, truths, undefined, undefined, undefined),
  );
  return results[truths.outcome]!;
}
