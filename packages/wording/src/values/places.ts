import { PLACE } from '@dwellset/core';
import { factTitle, type Words } from '../words.ts';
import { codeWords, valueWords } from './value.ts';

/** A text of a rule with its places filled: local choices by the value in force, facts by their title in brackets. */
export function placesFilled(text: string, words: Words): string {
  return text
    .split(PLACE)
    .map((part, index) => {
      if (index % 2 === 0) return part;
      const parameter = words.parameters.get(part);
      if (!parameter) return `[${factTitle(part, words)}]`;
      const { value, codes } = parameter;
      if (typeof value === 'number') return String(value);
      return typeof value === 'string' ? codeWords(value, codes, words) : valueWords(value, parameter, words);
    })
    .join('');
}
