import type { Judged, JudgedChoice } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { Reading } from '../facts/reading.ts';
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
  const shown = withFacts ? shownOf(evaluation, set) : [];
  const result = (judged: Judged): OptionResult => optionResult(evaluation, set, judged, shown);
  return {
    of: choice.of,
    provisional: choice.provisional,
    options: choice.options.map(result),
    ...(choice.nothingLeft ? { nothingLeft: idsOf(choice.nothingLeft) } : {}),
    ...(choice.chosen ? { chosen: result(choice.chosen) } : {}),
  };
}

/** The facts of options that a set knows. */
function shownOf({ plan }: Evaluation, set: PlanSet): string[] {
  const own = new Set(set.release.facts.map(({ id }) => id));
  return plan.optionFacts.facts.flatMap(({ id }) => (own.has(id) ? [id] : []));
}

const NONE: readonly never[] = Object.freeze([]);

/** Hardly any option has rules of each kind: those without share an empty list. */
const idsOf = (rules: readonly PlanRule[]): readonly string[] =>
  rules.length === 0 ? NONE : rules.map(({ rule }) => rule.id);

function optionResult(
  evaluation: Evaluation,
  set: PlanSet,
  { option, state, rank, excludedBy, undecided, preferredBy, remarkedBy }: Judged,
  shown: readonly string[],
): OptionResult {
  const readings = { get: (id: string): Reading | undefined => option.known(id) };
  const told = {
    excludedBy: idsOf(excludedBy),
    undecided: idsOf(undecided),
    preferredBy: idsOf(preferredBy),
    remarks: remarkedBy.map(({ rule }) => ({
      rule: rule.id,
      summary: preparedOf(set).texts.expand(rule.advice?.summary ?? rule.title, readings, evaluation.zone),
    })),
    facts: shown.flatMap((id) => {
      const reading = option.readings.get(id);
      return reading ? factReading(reading) : [];
    }),
  };
  const { id, title } = option;
  return rank === undefined ? { id, title, state, ...told } : { id, title, state, rank, ...told };
}
