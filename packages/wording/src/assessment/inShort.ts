import type { RuleSetResult } from '@dwellset/core';
import { listed } from '../words.ts';
import { inOrder } from './choice.ts';
import { range } from './sets.ts';

/** What one rule set comes to for one patient in a few words, for a column: nothing where it only advises. */
export function inShortWords({ population, conclusion, compliance, choices }: RuleSetResult): string {
  if (population === 'out') return 'outside';
  if (conclusion) return `${conclusion.title ?? '–'}${conclusion.settled ? '' : ', not settled'}`;
  if (compliance) return `${range(compliance.met)} of ${range(compliance.of)} met`;
  const first = (choices ?? []).flatMap((choice) => {
    if (choice.options.length === 0) return [];
    const best = inOrder(choice).find(({ rank }) => rank === 1);
    return [best ? best.title : `no ${choice.of}`];
  });
  return listed(first, 'and');
}
