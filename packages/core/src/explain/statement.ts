import type { RuleTruths } from '../evaluate/outcomes.ts';
import { FALSE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import type { RuleReasons } from './assessment.ts';
import type { Reasons } from './reasons.ts';

type Statement = { -readonly [Part in keyof RuleReasons]: RuleReasons[Part] };

/** The parts of a rule, each with its reasons; without `everything` only the parts that decide the outcome. */
export function statement(
  reasons: Reasons,
  set: PlanSet,
  plan: PlanRule,
  truths: RuleTruths,
  everything: boolean,
): RuleReasons {
  const out: Statement = {};
  const told = { out, reasons, truths, everything };
  put(told, 'population', plan.rule.anyPopulation ? undefined : set.population, false);
  put(told, 'gate', set.gate, false);
  put(told, 'scope', plan.scope, false);
  put(told, 'when', plan.when, true);
  put(told, 'expect', plan.expect, true);
  return out;
}

interface Told {
  readonly out: Statement;
  readonly reasons: Reasons;
  readonly truths: RuleTruths;
  readonly everything: boolean;
}

function put(told: Told, name: keyof RuleReasons, node: Node | undefined, isBody: boolean): void {
  if (node === undefined) return;
  const { out, reasons, truths, everything } = told;
  const deciding = decides(truths, isBody, reasons.truthAt(node));
  if (deciding || everything) out[name] = reasons.of(node, deciding, !everything);
}

/**
 * Whether a part decides: where the rule is out of scope, the parts of the scope that are false; where it does not
 * apply, what it looks for; where it applies, all of them; where it is undetermined, the open ones.
 */
function decides({ outcome, scope }: RuleTruths, isBody: boolean, truth: Truth): boolean {
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
}
