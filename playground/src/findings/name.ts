import type { Finding, Shown } from '@dwellset/authoring/analysis';
import { address } from '../route.ts';

/** What tells one finding from another, before and after an edit and in an address. */
export const nameOf = ({ set, kind, of }: Finding): string => [set, kind, ...of].join(' ');

/** The patient who shows a finding, or the same just below and just above the value that it is about. */
export type Which = 'patient' | 'below' | 'above';

export const addressOf = (finding: Finding, which: Which): string =>
  address(['findings', nameOf(finding), which]);

export function shownIn({ witness, beside }: Finding, which: string): Shown | undefined {
  if (which === 'below') return beside?.[0];
  return which === 'above' ? beside?.[1] : witness;
}
