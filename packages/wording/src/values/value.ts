import type { Constant, Fact } from '@dwellset/core';
import { listed, type Words } from '../words.ts';
import { isInstant, momentWords } from './moment.ts';
import { amountWords, type Measured } from './units.ts';

/** What gives a value its words: a fact or a parameter, or as much of one as is known. */
export type Described = Measured & Partial<Pick<Fact, 'codes'>>;

/** A code as a reader says it; the code itself where no list names it. */
export const codeWords = (code: string, list: string | undefined, words: Words): string =>
  (list === undefined ? undefined : words.codes[list]?.[code]) ?? code;

/** A value in plain words. `zone` turns instants into the ward's clock; without one they stay in UTC. */
export function valueWords(
  value: Constant,
  described: Described | undefined,
  words: Words,
  zone = 'UTC',
  by: 'and' | 'or' = 'and',
): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return amountWords(value, described);
  if (typeof value === 'string') {
    return isInstant(value) ? momentWords(value, zone) : codeWords(value, described?.codes, words);
  }
  const codes = value.map((code) => codeWords(code, described?.codes, words));
  return codes.length === 0 ? 'none' : listed(codes, by);
}
