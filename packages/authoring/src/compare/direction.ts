import { INDICATORS, type Indicator } from '@dwellset/core';
import type { Answer } from './answers.ts';
import type { Direction } from './shape.ts';

const rank = (indicator: Indicator | undefined): number =>
  indicator === undefined ? -1 : INDICATORS.indexOf(indicator);

/** What became of an answer from one side to the other; nothing where it is the same. */
export function directionOf(before: Answer | undefined, after: Answer | undefined): Direction | undefined {
  const [from, to] = [before?.state ?? 'silent', after?.state ?? 'silent'];
  if ((before ?? after)?.subject === 'conclusion') return ofConclusion(from, to);
  if (from === to) {
    if (from !== 'applies') return undefined;
    const raised = rank(after?.indicator) - rank(before?.indicator);
    return raised === 0 ? undefined : raised > 0 ? 'stronger' : 'weaker';
  }
  if (to === 'applies') return 'new';
  if (to === 'undetermined') return 'newly-undetermined';
  if (from === 'applies') return 'lost';
  return from === 'undetermined' ? 'newly-settled' : 'otherwise';
}

function ofConclusion(from: string, to: string): Direction | undefined {
  if (from === to) return undefined;
  const [open, stillOpen] = [from.endsWith('?'), to.endsWith('?')];
  if (open === stillOpen) return 'otherwise';
  return stillOpen ? 'newly-undetermined' : 'newly-settled';
}
