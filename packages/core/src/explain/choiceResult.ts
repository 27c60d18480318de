import type { Judged, JudgedChoice } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { PlanRule, PlanSet } from '../plan/plan.ts';
import type { ChoiceResult, OptionResult } from './assessment.ts';
import { factReading } from './factReading.ts';
import { preparedOf } from './prepared.ts';

/** One stock list as the assessment shows it. */
export function choiceResult(
  evaluation: Evaluation,
  set: PlanSet,
  choice: JudgedChoice,
  withFacts: boolean,
): ChoiceResult {
  const own = new Set(set.release.facts.map(({ id }) => id));
  const ofOptions = withFacts ? evaluation.plan.optionFacts.facts : [];
  const shown = ofOptions.filter(({ id }) => own.has(id)).map(({ id }) => id);
  return {
    of: choice.of,
    provisional: choice.provisional,
    options: choice.options.map((judged) => optionResult(evaluation, set, judged, shown)),
    ...(choice.nothingLeft ? { nothingLeft: choice.nothingLeft.map(({ rule }) => rule.id) } : {}),
    ...(choice.chosen ? { chosen: optionResult(evaluation, set, choice.chosen, shown) } : {}),
  };
}

function optionResult(
  evaluation: Evaluation,
  set: PlanSet,
  judged: Judged,
  shown: readonly string[],
): OptionResult {
  const ids = (rules: readonly PlanRule[]): string[] => rules.map(({ rule }) => rule.id);
  const { option } = judged;
  const { texts } = preparedOf(set);
  return {
    id: option.id,
    title: option.title,
    state: judged.state,
    ...(judged.rank === undefined ? {} : { rank: judged.rank }),
    excludedBy: ids(judged.excludedBy),
    undecided: ids(judged.undecided),
    preferredBy: ids(judged.preferredBy),
    remarks: judged.remarkedBy.map(({ rule }) => ({
      rule: rule.id,
      summary: texts.expand(rule.advice?.summary ?? rule.title, option.readings, evaluation.zone),
    })),
    facts: shown.flatMap((id) => {
      const reading = option.readings.get(id);
      return reading ? [factReading(reading)] : [];
    }),
  };
}
