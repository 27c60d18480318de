import type { Constant, Parameter } from '@dwellset/core';
import type { KeyCase } from '../documents/key.ts';
import type { Library } from '../library/shape.ts';
import { shares } from './bearing.ts';
import type { Judged, SourceConflict } from './shape.ts';

type Asked = NonNullable<KeyCase['answer']['choice']>;

export const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Local choices of which a published position rests on one of these rows, in the unit that the key gives. */
const choicesOn = ({ parameters }: Library, { restsOn, unit }: Asked): Omit<Parameter, 'value'>[] =>
  [...parameters.values()]
    .map(({ value }) => value as Omit<Parameter, 'value'>)
    .filter(
      (parameter) =>
        parameter.unit === unit && parameter.positions.some(({ evidence }) => shares(evidence, restsOn)),
    );

/** The value that a local choice has as published, against the one in the key. */
export function judgeChoice(library: Library, asked: Asked): Judged {
  const found = choicesOn(library, asked);
  const received = found.map(({ id, default: value }) => ({ choice: id, value }));
  const agreed = found.some(({ default: value }) => same(value, asked.value));
  return {
    part: 'choice',
    verdict: agreed ? 'agreed' : found.length === 0 ? 'not-decidable' : 'disagreed',
    expected: asked.value,
    received,
    by: [],
    asks: [],
    ...(found.length === 0 && { undecided: 'no-choice' as const }),
  };
}

/** Choices that stand on another published position than the key does. */
export const choiceConflicts = (library: Library, asked: Asked): SourceConflict[] =>
  choicesOn(library, asked).flatMap((parameter) =>
    parameter.positions
      .filter(({ value }) => same(value, asked.value))
      .map(({ value, evidence }) => conflictOf(parameter, parameter.default, value, evidence)),
  );

export const conflictOf = (
  { id, title, unit }: Pick<Parameter, 'id' | 'title' | 'unit'>,
  here: Constant,
  there: Constant,
  evidence: readonly string[],
): SourceConflict => ({ choice: id, title, here, there, ...(unit !== undefined && { unit }), evidence });
