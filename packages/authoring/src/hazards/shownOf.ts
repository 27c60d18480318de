import type { Assessment } from '@dwellset/core';

/**
 * What somebody who reads an assessment sees of one set, as text to compare: what is said and asked, what it comes
 * to. The outcomes of single rules are left out, since a rule that is gone always changes its own.
 */
export function shownOf({ advice, ask, ruleSets }: Assessment, id: string): string {
  const set = ruleSets.find((one) => one.id === id);
  return JSON.stringify({
    says: advice
      .filter((one) => one.set === id)
      .map(({ rule, summary, indicator }) => [rule, summary, indicator]),
    asks: ask
      .filter(({ rules }) => rules.some((rule) => rule.startsWith(`${id}/`)))
      .map(({ fact, holdsUpStop }) => [fact, holdsUpStop]),
    conclusion: set?.conclusion,
    all: set?.compliance?.all,
    choices: set?.choices?.map(({ of, options, chosen, nothingLeft }) => [
      of,
      options.map(({ id: option, state, rank, remarks }) => [option, state, rank, remarks]),
      chosen?.state,
      chosen?.remarks,
      nothingLeft,
    ]),
  });
}
