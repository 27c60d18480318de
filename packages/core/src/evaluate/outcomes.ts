import type { CheckWord, Outcome } from '../explain/assessment.ts';
import { and, FALSE, not, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';

/** Reads the truth of a node; a part that a rule does not have is true. */
export type TruthOf = (node: Node | undefined) => Truth;

export const truthIn =
  (truths: Uint8Array): TruthOf =>
  (node) =>
    node === undefined ? TRUE : (truths[node.at] as Truth);

export interface RuleTruths {
  readonly outcome: Outcome;
  /** Whether the rule is about this patient at all. */
  readonly scope: Truth;
  /** Whether what it looks for is there: `when`, or `expect` turned round. */
  readonly when: Truth;
}

/**
 * Outside its scope a rule says nothing. With the scope unknown it is settled only where `when` is false. A locked
 * rule does not wait for the population: it speaks, headed "population not established".
 */
export function ruleTruths(set: PlanSet, plan: PlanRule, truthOf: TruthOf): RuleTruths {
  const population = truthOf(set.population);
  const unlimited = plan.rule.anyPopulation === true || (plan.rule.locked === true && population !== FALSE);
  const own = and(truthOf(set.gate), truthOf(plan.scope));
  const scope = unlimited ? own : and(own, population);
  const when = plan.expect === undefined ? truthOf(plan.when) : not(truthOf(plan.expect));
  return (plan.switchedOff ? SWITCHED_OFF : RUNNING)[scope]![when]!;
}

function outcomeOf(scope: Truth, when: Truth): Outcome {
  if (scope === FALSE) return 'not-in-scope';
  if (when === FALSE) return 'does-not-apply';
  return scope === TRUE && when === TRUE ? 'applies' : 'undetermined';
}

/** There are few: by the truth of the scope and of what a rule looks for, and shared, for a case has one a rule. */
const table = (outcomeFor: typeof outcomeOf): readonly (readonly RuleTruths[])[] => {
  const all: readonly number[] = [FALSE, 1, UNKNOWN, TRUE];
  return all.map((scope) =>
    all.map((when) => {
      const truths = { scope: scope as Truth, when: when as Truth };
      return Object.freeze({ outcome: outcomeFor(truths.scope, truths.when), ...truths });
    }),
  );
};
const RUNNING = table(outcomeOf);
const SWITCHED_OFF = table(() => 'switched-off');

/**
 * The checklist's word for an outcome. Not recorded: undecided although somebody looked, everywhere that it is
 * open; undetermined: something was never supplied.
 */
export function checkWord(truths: RuleTruths, everyOpenRecordEmpty: () => boolean): CheckWord {
  switch (truths.outcome) {
    case 'switched-off':
      return 'switched-off';
    case 'not-in-scope':
      return 'not-applicable';
    case 'does-not-apply':
      return 'met';
    case 'applies':
      return 'not-met';
    case 'undetermined':
      return everyOpenRecordEmpty() ? 'not-recorded' : 'undetermined';
  }
}

/** What a check adds to all-or-none compliance: nothing where it is not applicable. */
export function checkTruth({ outcome }: RuleTruths): Truth | undefined {
  if (outcome === 'switched-off' || outcome === 'not-in-scope') return undefined;
  if (outcome === 'does-not-apply') return TRUE;
  return outcome === 'applies' ? FALSE : UNKNOWN;
}
