import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import { FALSE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import type { RuleReasons } from './assessment.ts';
import { type Read, reasonsOf, truthAt } from './reasons.ts';

/** The parts of a rule, each with its reasons; without `everything` only the parts that decide the outcome. */
export function statement(
  evaluation: Evaluation,
  set: PlanSet,
  plan: PlanRule,
  truths: RuleTruths,
  everything: boolean,
): RuleReasons {
  const read: Read = { truths: evaluation.truths, readings: evaluation.readings };
  const decides = decidingTruth(truths);
  const part = (name: keyof RuleReasons, node: Node | undefined): RuleReasons => {
    if (node === undefined) return {};
    const deciding = decides(name, truthAt(node, read));
    return deciding || everything ? { [name]: reasonsOf(node, read, deciding, !everything) } : {};
  };
  const population = plan.rule.anyPopulation ? undefined : set.population;
  return {
    ...part('population', population),
    ...part('gate', set.gate),
    ...part('scope', plan.scope),
    ...part('when', plan.when),
    ...part('expect', plan.expect),
  };
}

/**
 * Which parts decide: where the rule is out of scope, the parts of the scope that are false; where it does not
 * apply, what it looks for; where it applies, all of them; where it is undetermined, the open ones.
 */
function decidingTruth({ outcome, scope }: RuleTruths): (part: keyof RuleReasons, truth: Truth) => boolean {
  return (part, truth) => {
    const isBody = part === 'when' || part === 'expect';
    switch (outcome) {
      case 'switched-off':
        return false;
      case 'not-in-scope':
        return !isBody && truth === FALSE;
      case 'does-not-apply':
        return isBody;
      case 'applies':
        return true;
      case 'undetermined':
        return truth === UNKNOWN && (isBody || scope === UNKNOWN);
    }
  };
}
