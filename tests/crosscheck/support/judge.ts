import type { Bounds, Fact, Reading, Release } from '@dwellset/core';
import { judgeRuleSet, type SecondResult } from '../../../packages/crosscheck/src/judge/ruleSet.ts';
import { readings } from './readings.ts';

type Known = Readonly<Record<string, Bounds | null>>;

/** Judges a hand-made release; `options` gives what is known of each option beside the patient's facts. */
export function judge(
  made: Release,
  known: Known,
  options: Readonly<Record<string, Known>> = {},
): Promise<SecondResult> {
  const nothing: ReadonlyMap<string, Reading> = new Map();
  const optionFacts = (option: string): readonly Fact[] => (option in options ? made.facts : []);
  return judgeRuleSet(made, {
    patient: readings(known, made.facts),
    option: (_kind, option) =>
      optionFacts(option).length > 0 ? readings({ ...known, ...options[option] }, made.facts) : nothing,
  });
}

export const outcomes = (result: SecondResult): Readonly<Record<string, string>> =>
  Object.fromEntries(result.outcomes);
