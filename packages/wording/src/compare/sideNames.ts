import type { ComparisonShown } from './shown.ts';

/** How the two sides of a comparison are called. */
export interface SideNames {
  readonly before: string;
  readonly after: string;
  /** One side follows the other; otherwise they stand beside each other, as two hospitals do. */
  readonly inTime: boolean;
}

const IN_TIME: SideNames = { before: 'before', after: 'after', inTime: true };

/** That a hospital is invented stands where its release is named; in a sentence its name is enough. */
const short = (organisation: string): string => organisation.replace(/ \(invented\)$/, '');

/** Two hospitals go by their names: neither came before the other. */
export function sideNames(comparisons: readonly Pick<ComparisonShown, 'before' | 'after'>[]): SideNames {
  const of = (side: 'before' | 'after') => comparisons.map((one) => one[side]?.amendedBy).find(Boolean);
  const [before, after] = [of('before'), of('after')];
  if (before === undefined || after === undefined || before === after) return IN_TIME;
  return { before: short(before), after: short(after), inTime: false };
}

/** A value on either side. */
export const bothWords = (from: string, to: string, { before, after, inTime }: SideNames): string =>
  inTime ? `was ${from}; is ${to}` : `at ${before} ${from}; at ${after} ${to}`;

const IN_TIME_WORDS: Readonly<Record<string, string>> = {
  new: 'speaks where it was silent or undecided',
  stronger: 'speaks more strongly',
  lost: 'no longer speaks',
  weaker: 'speaks less strongly',
  'newly-undetermined': 'can no longer be decided, and asks',
  'newly-settled': 'was undecided, and is now settled without speaking',
  otherwise: 'comes out otherwise',
};

const BESIDE_WORDS: Readonly<Record<string, (before: string, after: string) => string>> = {
  new: (before, after) => `speaks at ${after} where it is silent or undecided at ${before}`,
  stronger: (_, after) => `speaks more strongly at ${after}`,
  lost: (before, after) => `speaks at ${before} and not at ${after}`,
  weaker: (_, after) => `speaks less strongly at ${after}`,
  'newly-undetermined': (_, after) => `cannot be decided at ${after}, and asks there`,
  'newly-settled': (before, after) => `asks at ${before}, and is settled at ${after} without speaking`,
  otherwise: () => 'comes out otherwise',
};

/** What became of an answer, behind the name of its rule. */
export function directionWords(direction: string, { before, after, inTime }: SideNames): string {
  if (inTime) return IN_TIME_WORDS[direction] ?? direction;
  return BESIDE_WORDS[direction]?.(before, after) ?? direction;
}
