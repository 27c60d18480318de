import type { Constant, Parameter, Position } from '@dwellset/core';
import { valueWords } from '../values/value.ts';
import { listed, type Words } from '../words.ts';
import { MOST_SAID, mayTake, sameValue, shortValue } from './allowed.ts';

export interface PositionSaid {
  /** The value; of a long list only how it differs from the one in force. */
  readonly value: string;
  /** The same where room is short. */
  readonly brief: string;
  /** Whether it is in force, or whether a hospital may take it. */
  readonly standing: string;
  readonly evidence: readonly string[];
  readonly note?: string;
}

const quoted = (codes: readonly string[], parameter: Parameter, words: Words): string =>
  listed(
    codes.map((code) => `"${valueWords(code, parameter, words)}"`),
    'and',
  );

/** How a list of codes differs from the one in force. */
function difference(codes: readonly string[], parameter: Parameter, words: Words): string {
  const current = parameter.value as readonly string[];
  const more = codes.filter((code) => !current.includes(code));
  const fewer = current.filter((code) => !codes.includes(code));
  const parts = [
    ...(more.length === 0 ? [] : [`with ${quoted(more, parameter, words)}`]),
    ...(fewer.length === 0 ? [] : [`without ${quoted(fewer, parameter, words)}`]),
  ];
  return parts.join('; ');
}

function said(value: Constant, parameter: Parameter, words: Words): string {
  const long = typeof value === 'object' && value.length > MOST_SAID && typeof parameter.value === 'object';
  return long && !sameValue(value, parameter.value)
    ? difference(value, parameter, words)
    : valueWords(value, parameter, words, 'UTC', 'or');
}

/** Each published position of a local choice, and whether a hospital may take it. */
export const positionsSaid = (
  parameter: Parameter,
  words: Words,
  locked: readonly string[] = [],
): PositionSaid[] =>
  parameter.positions.map(({ value, evidence, note }: Position) => ({
    value: said(value, parameter, words),
    brief: sameValue(value, parameter.value)
      ? shortValue(value, parameter, words)
      : said(value, parameter, words),
    standing: sameValue(value, parameter.value)
      ? 'in force'
      : mayTake(parameter, value, locked)
        ? 'may be chosen'
        : 'not open to a hospital',
    evidence,
    ...(note !== undefined && { note }),
  }));
