import { type CasesJudged, isInCases, type Outcome, type RuleOverCases } from '@dwellset/core';

/** How one rule ends for each of many cases, looked up once for all of them. */
export interface OutcomesOver {
  readonly over: RuleOverCases;
  at(row: number): Outcome;
}

export function outcomesOver(judged: CasesJudged, set: string, rule: string): OutcomesOver {
  const over = judged.rule(set, rule);
  const closed = judged.columns.outOfPeriod(set);
  return {
    over,
    at: (row) => {
      if (isInCases(closed, row)) return 'not-in-scope';
      if (over.switchedOff) return 'switched-off';
      if (isInCases(over.applies, row)) return 'applies';
      if (isInCases(over.doesNotApply, row)) return 'does-not-apply';
      return isInCases(over.undetermined, row) ? 'undetermined' : 'not-in-scope';
    },
  };
}
