import type { Outcome } from '@dwellset/core';
import { counted, listed, upperFirst } from '../words.ts';

const RULE: Readonly<Record<Outcome, string>> = {
  applies: 'applies to',
  undetermined: 'could not be decided for',
  'does-not-apply': 'does not apply to',
  'not-in-scope': 'not in scope for',
  'switched-off': 'switched off for',
};

const CHECK: Readonly<Record<Outcome, string>> = {
  'does-not-apply': 'met by',
  applies: 'not met by',
  undetermined: 'not known for',
  'not-in-scope': 'not applicable to',
  'switched-off': 'switched off for',
};

const ORDER: readonly Outcome[] = [
  'applies',
  'undetermined',
  'does-not-apply',
  'not-in-scope',
  'switched-off',
];

/** For how many patients a rule, or a check, ended in which way: `Applies to 4 patients, not in scope for 9.` */
export function tallyWords(counts: ReadonlyMap<Outcome, number>, isCheck = false): string {
  const words = isCheck ? CHECK : RULE;
  const some = ORDER.filter((outcome) => (counts.get(outcome) ?? 0) > 0);
  const parts = some.map((outcome, index) => {
    const count = counts.get(outcome) ?? 0;
    return `${words[outcome]} ${index === 0 ? counted(count, 'patient') : count}`;
  });
  return parts.length === 0 ? 'No patient has been tried.' : `${upperFirst(parts.join(', '))}.`;
}

/** What it means that a patient only reads differently. */
export const READS_DIFFERENTLY =
  'to read differently is to end as published in every rule, with other words, another order of items or another conclusion';

/** `3 patients change`; `reads` counts those for whom the rules end as before and only texts or ranks differ. */
export function changedWords(changed: number, reads = 0): string {
  const differently = `${counted(reads, 'patient', 'patients')} ${reads === 1 ? 'reads' : 'read'} differently`;
  if (changed === 0) return reads === 0 ? 'No patient changes' : `No outcome changes, ${differently}`;
  const change = `${counted(changed, 'patient changes', 'patients change')}`;
  return reads === 0 ? change : `${change}, and ${reads} more ${reads === 1 ? 'reads' : 'read'} differently`;
}

/** What the counts of several sets come to: `2 in "Removal" and 1 in "Drainage"`. */
export const changedInWords = (counts: readonly (readonly [title: string, count: number])[]): string =>
  listed(
    counts.map(([title, count]) => `${count} in "${title}"`),
    'and',
  );
