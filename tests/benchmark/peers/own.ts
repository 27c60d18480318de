import {
  assess,
  type Case,
  type CasesJudged,
  type Evaluation,
  type ExplainOptions,
  Explanation,
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

/** One case with the statement of reasons of every rule as objects, read from its truths; and nothing else. */
export function reasonsOfOne(plan: Plan, patient: Case): unknown {
  const explanation = new Explanation(evaluate(plan, patient));
  return plan.sets.map(({ release }) => explanation.rules(release.id, { reasons: 'all', asks: false }));
}

/** One case with the rules that apply: their advice and all their reasons as objects. */
export function applyingOfOne(plan: Plan, patient: Case): unknown {
  const explanation = new Explanation(evaluate(plan, patient));
  const reasons = plan.sets.map(({ release }) => explanation.rules(release.id, APPLYING));
  return [explanation.advice(), reasons];
}

const APPLYING = { outcomes: ['applies'], reasons: 'all', asks: false } as const;

/** One case with its whole assessment as objects: also what would settle each undetermined rule, and every question. */
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
