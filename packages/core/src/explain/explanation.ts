import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import type { PlanSet } from '../plan/plan.ts';
import type { Advice, Outcome, RuleResult } from './assessment.ts';
import { Explained, type ReasonsWanted } from './explained.ts';
import { preparedOf } from './prepared.ts';

export interface RuleWanted {
  /** How much of the statement of reasons: what decided, everything, or nothing. */
  readonly reasons?: ReasonsWanted;
  /** False leaves out what would settle an undecided rule, for callers that do not read it. */
  readonly asks?: boolean;
}

export interface RulesWanted extends RuleWanted {
  /** Only rules with one of these outcomes. */
  readonly outcomes?: readonly Outcome[];
}

/**
 * Reads the explanation of an evaluated case piece by piece: each piece is built when it is asked for, and is the
 * same JSON that stands in the assessment. Nothing is there for a set or rule that the plan does not hold. An
 * assessment carries the cautions; whoever shows a piece alone shows them beside it.
 */
export class Explanation {
  private readonly explained: Explained;

  constructor(evaluation: Evaluation) {
    this.explained = new Explained(evaluation);
  }

  /** One rule with its statement of reasons. */
  rule(set: string, rule: string, wanted: RuleWanted = {}): RuleResult | undefined {
    const own = this.set(set);
    const index = own && preparedOf(own).index(rule);
    if (index === undefined) return undefined;
    return this.result(own!, index, this.explained.judged(own!).truths[index]!, wanted);
  }

  /** The rules of a set in their order. */
  rules(set: string, wanted: RulesWanted = {}): RuleResult[] {
    const own = this.set(set);
    if (own === undefined) return [];
    const { outcomes } = wanted;
    const found: RuleResult[] = [];
    const { truths } = this.explained.judged(own);
    for (let index = 0; index < truths.length; index += 1) {
      const truth = truths[index]!;
      if (outcomes === undefined || outcomes.includes(truth.outcome))
        found.push(this.result(own, index, truth, wanted));
    }
    return found;
  }

  /** Everything that speaks, in the order of the assessment. */
  advice(): Advice[] {
    return this.explained.advice();
  }

  private set(id: string): PlanSet | undefined {
    return this.explained.evaluation.plan.sets.find(({ release }) => release.id === id);
  }

  private result(
    set: PlanSet,
    index: number,
    own: RuleTruths,
    { reasons = 'deciding', asks = true }: RuleWanted,
  ): RuleResult {
    const ask =
      asks && own.outcome === 'undetermined'
        ? this.explained.asker.rule(set, set.rules[index]!, own)
        : undefined;
    return this.explained.result(set, index, own, ask, reasons);
  }
}
