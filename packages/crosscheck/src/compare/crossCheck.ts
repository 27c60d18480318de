import { type Case, evaluate, explain, type Plan } from '@dwellset/core';
import { isOutOfPeriod } from '../judge/period.ts';
import { type CaseReadings, judgeRuleSet, notRun } from '../judge/ruleSet.ts';
import { type Compared, compareRuleSet } from './compareRuleSet.ts';
import type { Disagreement } from './disagreement.ts';

export interface CrossCheck {
  readonly agrees: boolean;
  /** How many answers were laid side by side. */
  readonly compared: number;
  readonly disagreements: readonly Disagreement[];
}

/**
 * Computes the assessment of one case a second time on json-rules-engine, from the same readings, and lists
 * every answer on which the two engines differ. Rejects with a TranslationError where a release of the plan
 * has no exact translation: a comparison that leaves something out would look like agreement.
 */
export async function crossCheck(plan: Plan, patient: Case): Promise<CrossCheck> {
  const evaluation = evaluate(plan, patient);
  const assessment = explain(evaluation, { reasons: 'none', asks: false, optionFacts: false });
  const compared: Compared[] = [];
  for (const { release } of plan.sets) {
    const readings: CaseReadings = {
      patient: evaluation.readings,
      option: (kind, option) => evaluation.optionReadings(release.id, kind, option),
    };
    const first = assessment.ruleSets.find(({ id }) => id === release.id);
    const mayRun = plan.allowed.has('out-of-period') || !isOutOfPeriod(release, patient);
    const second = mayRun ? await judgeRuleSet(release, readings) : notRun(release);
    compared.push(compareRuleSet(release.id, first, second));
  }
  const disagreements = compared.flatMap((set) => set.disagreements);
  return {
    agrees: disagreements.length === 0,
    compared: compared.reduce((sum, set) => sum + set.compared, 0),
    disagreements,
  };
}
