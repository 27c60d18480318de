import type { Case, CaseValue, Constant } from '@dwellset/core';
import { amountWords } from '../values/units.ts';
import { valueWords } from '../values/value.ts';
import { factTitle, listed, type Words } from '../words.ts';

/** One supplied value in plain words. */
function suppliedWords(fact: string, value: CaseValue, words: Words, zone: string): string {
  const described = words.facts.get(fact);
  const plain = (one: Constant) => valueWords(one, described, words, zone, 'and');
  if (value === null) return 'looked for, nothing recorded';
  if (typeof value !== 'object') return plain(value);
  if (Array.isArray(value)) {
    return value.every((one) => typeof one === 'string')
      ? plain(value as readonly string[])
      : value.length === 0
        ? 'no entries'
        : value.map((entry) => entryWords(entry, plain)).join('; ');
  }
  if ('absent' in value) return value.absent.replaceAll('-', ' ');
  if (!('value' in value))
    return answersWords(value as { yes?: readonly string[]; no?: readonly string[] }, plain);
  const { value: inner, comparator, at } = value as { value: CaseValue; comparator?: string; at?: string };
  const said = suppliedWords(fact, inner, words, zone);
  return `${comparator === undefined ? '' : `${comparator} `}${said}${at === undefined ? '' : ` (${plain(at)})`}`;
}

function answersWords(
  value: { readonly yes?: readonly string[]; readonly no?: readonly string[] },
  plain: (codes: readonly string[]) => string,
): string {
  if (value.yes === undefined && value.no === undefined) return JSON.stringify(value);
  const parts = [
    ...(value.yes?.length ? [`yes to ${plain(value.yes)}`] : []),
    ...(value.no?.length ? [`no to ${plain(value.no)}`] : []),
  ];
  return listed(parts, 'and') || 'nothing answered';
}

/** One entry of a list: its fields in the order in which they are written. */
function entryWords(entry: unknown, plain: (one: Constant) => string): string {
  if (typeof entry !== 'object' || entry === null) return String(entry);
  const fieldWords = ([name, value]: readonly [string, unknown]): string => {
    const { value: amount, unit } = (value ?? {}) as { value?: unknown; unit?: string };
    if (typeof amount === 'number')
      return `${name} ${amountWords(amount, unit === undefined ? {} : { unit })}`;
    return `${name} ${value === null ? 'not recorded' : typeof value === 'object' ? JSON.stringify(value) : plain(value as Constant)}`;
  };
  return Object.entries(entry).map(fieldWords).join(', ');
}

/** Every fact of a case, one a line: title, what is supplied. */
export function caseLines({ facts, chosen, timeZone }: Case, words: Words): string[] {
  const supplied = Object.entries(facts).map(
    ([fact, value]) => `${factTitle(fact, words)}: ${suppliedWords(fact, value, words, timeZone)}`,
  );
  const inHand = Object.entries(chosen ?? {}).map(
    ([kind, item]) => `${kind} in the hand: ${typeof item === 'string' ? item : JSON.stringify(item)}`,
  );
  const all = [...supplied, ...inHand];
  return all.length === 0 ? ['a patient of whom nothing is supplied'] : all;
}
