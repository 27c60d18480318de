import type { Condition, Constant, ParameterReference, Release } from '@dwellset/core';
import { valueWords } from '../values/value.ts';
import { lowerFirst, upperFirst, type Words, wordsOf } from '../words.ts';
import { comparisonWords } from './leaf.ts';

type RightSide = Constant | ParameterReference | undefined;

const isReference = (value: RightSide): value is ParameterReference =>
  typeof value === 'object' && 'parameter' in value;

/** The value in force, and the title of the local choice where it is one. */
function rightSide(value: RightSide, words: Words): { value: Constant | undefined; choice?: string } {
  if (!isReference(value)) return { value };
  const parameter = words.parameters.get(value.parameter);
  return { value: parameter?.value, choice: parameter?.title ?? value.parameter };
}

/** `short-and-dry` → "short and dry". */
export const namedWords = (name: string): string => `"${name.replaceAll('-', ' ')}"`;

interface Clause {
  readonly text: string;
  /** A joined clause needs brackets inside another kind of group. */
  readonly joined?: 'and' | 'or';
}

function group(parts: readonly Clause[], by: 'and' | 'or'): Clause {
  const only = parts[0];
  if (parts.length === 1 && only) return only;
  const texts = parts.map((part) => (part.joined && part.joined !== by ? `(${part.text})` : part.text));
  return { text: texts.join(` ${by} `), joined: by };
}

function clause(condition: Condition, words: Words, negated: boolean): Clause {
  if ('not' in condition) return clause(condition.not, words, !negated);
  if ('all' in condition || 'any' in condition) {
    const all = 'all' in condition;
    const parts = (all ? condition.all : condition.any).map((part) => clause(part, words, negated));
    return group(parts, all === negated ? 'or' : 'and');
  }
  if ('condition' in condition) {
    return { text: `${namedWords(condition.condition)} ${negated ? 'does not hold' : 'holds'}` };
  }
  const { value, choice } = rightSide(condition.value, words);
  if ('fact' in condition) {
    return {
      text: comparisonWords(
        { fact: condition.fact, operator: condition.operator, value, choice, negated },
        words,
      ),
    };
  }
  return { text: choiceWords(condition.parameter, condition.operator, value, words, negated) };
}

/** A leaf over a local choice: the choice, what is in force and what is asked of it. */
export function choiceWords(
  id: string,
  operator: Parameters<typeof comparisonWords>[0]['operator'],
  value: Constant | undefined,
  words: Words,
  negated = false,
): string {
  const parameter = words.parameters.get(id);
  // A parameter is worded like a fact of its type, so that one set of sentences serves both.
  const shown: Words = parameter
    ? {
        ...words,
        facts: new Map([
          [
            id,
            {
              id,
              type: parameter.type,
              title: parameter.title,
              question: parameter.title,
              ...(parameter.unit === undefined ? {} : { unit: parameter.unit }),
              ...(parameter.codes === undefined ? {} : { codes: parameter.codes }),
            },
          ],
        ]),
      }
    : words;
  return `by local choice, ${comparisonWords({ fact: id, operator, value, negated }, shown)}`;
}

/** The value in force of a local choice, as the reasons show it. */
export function inForceWords(id: string, value: Constant, words: Words): string {
  const parameter = words.parameters.get(id);
  return `${parameter ? lowerFirst(parameter.title) : id} is set to ${valueWords(value, parameter, words)}`;
}

/**
 * A condition of a release as one English sentence. `not` is carried inwards, which changes no truth value (De
 * Morgan holds for true, false and unknown alike).
 */
export const conditionSentence = (condition: Condition, release: Release): string =>
  sentenceWith(condition, wordsOf([release]));

/** The same where the words are already at hand. */
export const sentenceWith = (condition: Condition, words: Words): string =>
  `${upperFirst(clauseWords(condition, words))}.`;

/** A condition inside a longer sentence. */
export const clauseWords = (condition: Condition, words: Words): string =>
  clause(condition, words, false).text;
