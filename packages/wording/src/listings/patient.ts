import type { Case, CaseValue } from '@dwellset/core';
import { amountWords } from '../values/units.ts';
import { type Described, valueWords } from '../values/value.ts';
import { factTitle, type Words } from '../words.ts';

const isObject = (value: CaseValue): value is Exclude<CaseValue, null | boolean | number | string> =>
  typeof value === 'object' && value !== null;

/** A value of a case in plain words. */
function statedWords(value: CaseValue, described: Described | undefined, words: Words, zone: string): string {
  if (value === null) return 'nothing recorded';
  if (!isObject(value)) return valueWords(value, described, words, zone);
  if ('absent' in value) return 'nothing recorded';
  if ('value' in value) {
    const { value: inner, unit } = value;
    if (typeof inner === 'number') return amountWords(inner, { ...described, ...(unit ? { unit } : {}) });
    return statedWords(inner, described, words, zone);
  }
  if (Array.isArray(value)) return codesWords(value as readonly string[], described, words);
  if ('items' in value) return `${value.items.length} entries`;
  const { yes = [], no = [] } = value as {
    readonly yes?: readonly string[];
    readonly no?: readonly string[];
  };
  if (yes.length > 0)
    return `${codesWords(yes, described, words)}${no.length > 0 ? ', none of the others' : ''}`;
  return 'none of them';
}

const codesWords = (codes: readonly string[], described: Described | undefined, words: Words): string =>
  codes.every((code) => typeof code === 'string')
    ? valueWords(codes, described, words)
    : `${codes.length} entries`;

/** The facts of an invented patient, and of the item in the hand, in one line; what is not named is not recorded. */
export function patientWords({ facts, chosen, timeZone }: Case, words: Words): string {
  const said = (id: string, value: CaseValue): string =>
    `${factTitle(id, words)}: ${statedWords(value, words.facts.get(id), words, timeZone)}`;
  const own = Object.entries(facts).map(([id, value]) => said(id, value));
  const items = Object.entries(chosen ?? {}).flatMap(([kind, item]) => {
    if (typeof item === 'string') return [`${kind} in the hand: ${item}`];
    const attributes = Object.entries(item).map(([id, value]) => said(id, value));
    return attributes.length === 0 ? [] : [`${kind} in the hand: ${attributes.join(', ')}`];
  });
  const all = [...own, ...items];
  return all.length === 0 ? 'a patient of whom nothing is recorded' : all.join('; ');
}
