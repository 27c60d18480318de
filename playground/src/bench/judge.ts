import {
  type Case,
  compile,
  evaluate,
  explain,
  type Plan,
  PlanError,
  type Release,
  type Withdrawal,
} from '@dwellset/core';
import { inShortWords } from '@dwellset/wording';

/** A set compiled with what it reads, and the places of its outcomes in a row. */
export interface Judge {
  readonly set: string;
  readonly plan: Plan;
  readonly rules: readonly string[];
}

/** Every rule is tried here on invented patients, whatever its status; an assessment says that it was withdrawn. */
export function planOf(
  releases: readonly Release[],
  withdrawals: readonly Withdrawal[] = [],
): Plan | readonly string[] {
  try {
    return compile(releases, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'], withdrawals });
  } catch (error) {
    if (error instanceof PlanError) return error.problems;
    throw error;
  }
}

export const isPlan = (plan: Plan | readonly string[]): plan is Plan => !Array.isArray(plan);

/** A patient in short, and a text that differs wherever a word, a rank or a conclusion does. */
export function textsOf({ set, plan }: Judge, patient: Case): { short: string; sign: string } {
  const assessment = explain(evaluate(plan, patient), {
    reasons: 'none',
    asks: false,
    optionFacts: false,
  });
  const result = assessment.ruleSets.find(({ id }) => id === set)!;
  const said = assessment.advice
    .filter((advice) => advice.set === set)
    .map(({ rule, summary, detail, indicator, because, chosen }) => [
      rule,
      summary,
      detail,
      indicator,
      because,
      chosen,
    ]);
  const options = result.choices?.map(({ of, options, chosen }) => [
    of,
    [...options, ...(chosen ? [chosen] : [])].map(({ id, state, rank, remarks }) => [
      id,
      state,
      rank,
      remarks,
    ]),
  ]);
  const sign = JSON.stringify([said, result.conclusion, result.compliance, options]);
  return { short: inShortWords(result), sign };
}
