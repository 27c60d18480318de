import type { Goal, SetCoverage, Total, TotalName } from './shape.ts';

function total(goals: readonly Goal[]): Total {
  const count = (state: Goal['state']): number => goals.filter((one) => one.state === state).length;
  const [covered, uncovered] = [count('covered'), count('uncovered')];
  const possible = covered + uncovered;
  return {
    covered,
    uncovered,
    impossible: count('impossible'),
    percent: possible === 0 ? 100 : Math.floor((covered * 1000) / possible) / 10,
  };
}

/** The five counts of a set. */
export function totalsOf({
  rules,
  conditions,
  limits,
  options,
  remarks,
}: Pick<SetCoverage, 'rules' | 'conditions' | 'limits' | 'options' | 'remarks'>): Record<TotalName, Total> {
  const goals = (items: readonly { readonly goals: readonly Goal[] }[]): Goal[] =>
    items.flatMap((item) => item.goals);
  const ofConditions = goals(conditions);
  return {
    outcomes: total(goals(rules)),
    truths: total(ofConditions.filter(({ what }) => what !== 'alone')),
    alone: total(ofConditions.filter(({ what }) => what === 'alone')),
    limits: total(goals(limits)),
    options: total([...goals(options), ...goals(remarks)]),
  };
}
