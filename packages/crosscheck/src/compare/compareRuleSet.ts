import type { ChoiceResult, OptionResult, RuleSetResult } from '@dwellset/core';
import type { ChoiceStanding } from '../judge/choice.ts';
import type { OptionStanding } from '../judge/option.ts';
import type { SecondResult } from '../judge/ruleSet.ts';
import { type Disagreement, Tally } from './disagreement.ts';

export interface Compared {
  readonly compared: number;
  readonly disagreements: readonly Disagreement[];
}

/** Everything that both engines say of one rule set; what only one of them says is a disagreement too. */
export function compareRuleSet(
  set: string,
  first: RuleSetResult | undefined,
  second: SecondResult,
): Compared {
  const tally = new Tally(set);
  tally.compare('rules', first?.rules.map(idOf), [...second.outcomes.keys()]);
  for (const [id, outcome] of second.outcomes) {
    const core = first?.rules.find((rule) => rule.id === id);
    tally.compare('outcome', core?.outcome, outcome, id);
    tally.compare('check', core?.check, second.checks.get(id), id);
  }
  const { conclusion, compliance } = second;
  tally.compare('conclusion', first?.conclusion?.id, conclusion?.id);
  tally.compare('conclusion settled', first?.conclusion?.settled, conclusion?.settled);
  tally.compare('conclusion possible', first?.conclusion?.possible, conclusion?.possible);
  tally.compare('compliance', first?.compliance?.all, compliance?.all);
  tally.compare('compliance met', first?.compliance?.met, compliance?.met);
  tally.compare('compliance of', first?.compliance?.of, compliance?.of);
  tally.compare('choices', first?.choices?.map(kindOf), second.choices?.map(kindOf));
  for (const choice of second.choices ?? []) {
    compareChoice(
      tally,
      first?.choices?.find(({ of }) => of === choice.of),
      choice,
    );
  }
  return tally;
}

const idOf = ({ id }: { readonly id: string }): string => id;
const kindOf = ({ of }: { readonly of: string }): string => of;

function compareChoice(tally: Tally, first: ChoiceResult | undefined, second: ChoiceStanding): void {
  tally.compare(`${second.of} provisional`, first?.provisional, second.provisional);
  tally.compare(`${second.of} nothing left`, first?.nothingLeft, second.nothingLeft);
  tally.compare(`${second.of} order`, first?.options.map(idOf), second.options.map(idOf));
  for (const option of second.options) {
    const what = `${second.of}, ${option.id}`;
    const core = first?.options.find(({ id }) => id === option.id);
    compareOption(tally, what, core, option);
    tally.compare(`${what}: rank`, core?.rank, second.ranks.get(option.id));
  }
  compareOption(tally, `${second.of}, item in the hand`, first?.chosen, second.chosen);
}

function compareOption(
  tally: Tally,
  what: string,
  first: OptionResult | undefined,
  second: OptionStanding | undefined,
): void {
  const remarks = first?.remarks.map(({ rule }) => rule);
  tally.compare(`${what}: state`, first?.state, second?.state);
  tally.compare(`${what}: excluded by`, first?.excludedBy, second?.excludedBy);
  tally.compare(`${what}: undecided`, first?.undecided, second?.undecided);
  tally.compare(`${what}: preferred by`, first?.preferredBy, second?.preferredBy);
  tally.compare(`${what}: remarks`, remarks, second?.remarkedBy);
}
