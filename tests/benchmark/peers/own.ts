import {
  assess,
  type Case,
  type CasesJudged,
  type Evaluation,
  type ExplainOptions,
  evaluate,
  judgeCases,
  type Outcome,
  type Plan,
  readCases,
  ruleTruths,
  TRUE,
  type Truth,
  type TruthOf,
} from '@dwellset/core';

/** One case: the truth of every condition is kept, from which reasons are built when read. */
function outcomesOf(plan: Plan, evaluation: Evaluation): readonly Outcome[] {
  const truthOf: TruthOf = (node) => (node === undefined ? TRUE : (evaluation.truths[node.at] as Truth));
  const found: Outcome[] = [];
  for (const set of plan.sets) {
    for (const rule of set.rules) found.push(ruleTruths(set, rule, truthOf).outcome);
  }
  return found;
}

export const judgeOne = (plan: Plan, patient: Case): readonly Outcome[] =>
  outcomesOf(plan, evaluate(plan, patient));

/** One case with its assessment as objects. */
export const explainOne = (plan: Plan, patient: Case, reasons: ExplainOptions['reasons']): unknown =>
  assess(plan, patient, { reasons: reasons ?? 'deciding' });

/** Every rule over columns that were read before. */
export function judgeAll(judged: CasesJudged): number {
  let applies = 0;
  for (const { release, rules } of judged.plan.sets) {
    for (const { rule } of rules) applies += judged.rule(release.id, rule.id).applies.length;
  }
  return applies;
}

export function judgeMany(plan: Plan, cases: readonly Case[]): CasesJudged {
  const judged = judgeCases(plan, readCases(plan, cases));
  judgeAll(judged);
  return judged;
}
