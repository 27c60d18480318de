import type { Evaluation } from '../evaluate/evaluate.ts';
import { FALSE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { PlanRule, PlanSet } from '../plan/plan.ts';
import type { RuleAsk } from './ask.ts';
import type { Question } from './assessment.ts';

/** A rule that waits, and what it waits for. */
export interface Waiting {
  readonly rule: string;
  readonly asks: RuleAsk['asks'];
  /** Locked, or critical: its question comes first. */
  readonly isStop: boolean;
}

/**
 * The questions of a whole assessment: facts that hold up a locked or critical rule first, then by how many
 * undetermined rules the fact alone could settle, then in dictionary order.
 */
export function questions(evaluation: Evaluation, waiting: readonly Waiting[]): Question[] {
  const { plan, readings } = evaluation;
  const found = new Map<string, { holdsUpStop: boolean; settlesAlone: number; rules: string[] }>();
  for (const { rule, isStop, asks } of waiting) {
    for (const set of asks) {
      for (const fact of set) {
        let own = found.get(fact);
        if (own === undefined) {
          own = { holdsUpStop: false, settlesAlone: 0, rules: [] };
          found.set(fact, own);
        }
        if (set.length === 1) own.settlesAlone += 1;
        // Several sets of one rule may name it.
        if (own.rules.at(-1) === rule) continue;
        own.holdsUpStop ||= isStop;
        own.rules.push(rule);
      }
    }
  }
  const asked: Question[] = [];
  for (const [fact, { holdsUpStop, settlesAlone, rules }] of found) {
    const question = plan.facts.get(fact)?.question ?? fact;
    const cause = readings.get(fact)?.cause ?? 'not-supplied';
    asked.push({ fact, question, cause, holdsUpStop, settlesAlone, partOf: rules.length, rules });
  }
  const place = (fact: string): number => plan.order.get(fact) ?? Infinity;
  return asked.sort(
    (a, b) =>
      Number(b.holdsUpStop) - Number(a.holdsUpStop) ||
      b.settlesAlone - a.settlesAlone ||
      place(a.fact) - place(b.fact),
  );
}

/** Whether every fact behind the open leaves of a check is known to have nothing in the record. */
export function openRecordsEmpty(set: PlanSet, plan: PlanRule, evaluation: Evaluation): boolean {
  const { truths, readings } = evaluation;
  const facts = new Set<string>();
  const visit = (node: NonNullable<PlanRule['scope']>): void => {
    if (truths[node.at] !== UNKNOWN) return;
    if (node.kind === 'fact') facts.add(node.fact);
    else if (node.kind !== 'parameter') node.of.forEach(visit);
  };
  const population = plan.rule.anyPopulation || plan.rule.locked ? undefined : set.population;
  for (const node of [population, set.gate, plan.scope, plan.expect]) if (node) visit(node);
  const recordedOf = (fact: string): Truth[] => {
    const { inputs, recorded, cause } = readings.get(fact)!;
    // An exact value may follow from facts nobody supplied: nothing then says that the record is empty.
    if (cause === undefined) return recorded === UNKNOWN ? [recorded] : [];
    return inputs === undefined ? [recorded] : inputs.flatMap(recordedOf);
  };
  const found = [...facts].flatMap(recordedOf);
  return found.length > 0 && found.every((recorded) => recorded === FALSE);
}
