import { type Plan, type PlanRule, type PlanSet, ruleTruths } from '@dwellset/core';
import { neverUnknown } from './conditions.ts';
import { nodesOfRule } from './decisions.ts';
import { goal } from './goals.ts';
import type { Observation } from './observe.ts';
import { neverHolds } from './prove.ts';
import type { OutcomeGoal, Place, RuleCoverage } from './shape.ts';
import { reader } from './truths.ts';

const SETTLED: readonly OutcomeGoal[] = ['applies', 'does-not-apply', 'not-in-scope'];

/** The outcomes in which the vignettes show a rule. */
export function coverRule(
  plan: Plan,
  set: PlanSet,
  rule: PlanRule,
  place: Place,
  observations: readonly Observation[],
): RuleCoverage {
  const outcomeOf = (truths: Uint8Array) => ruleTruths(set, rule, reader(truths)).outcome;
  const seen = new Set<string>(observations.map(({ truths }) => outcomeOf(truths)));
  const nodes = nodesOfRule(set, rule);
  const goals = SETTLED.map((outcome) =>
    goal(outcome, seen.has(outcome), () =>
      neverHolds(plan, nodes, (truths) => outcomeOf(truths) === outcome),
    ),
  );
  const undetermined = goal('undetermined', seen.has('undetermined'), () =>
    neverUnknown(plan, (truths) => outcomeOf(truths) === 'undetermined'),
  );
  return {
    rule: rule.rule.id,
    check: rule.expect !== undefined,
    place,
    goals: [...goals, undetermined],
  };
}
