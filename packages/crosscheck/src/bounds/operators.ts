import {
  type Answer,
  BOUNDS_OPERATORS,
  type BoundsOperator,
  type EngineValue,
  FAMILIES,
  type Family,
} from './boundsOperator.ts';
import type { FactBounds } from './factBounds.ts';
import { onAnswers } from './onAnswers.ts';
import { onInterval } from './onInterval.ts';
import { onPossible } from './onPossible.ts';

/** Whether the leaf holds for every possible value, and for some. */
export function answer(operator: BoundsOperator, bounds: FactBounds, value: EngineValue): Answer {
  if (operator === 'recorded') {
    return { certainly: bounds.recorded === 'true', possibly: bounds.recorded !== 'false' };
  }
  if (operator === 'notRecorded') {
    return { certainly: bounds.recorded === 'false', possibly: bounds.recorded !== 'true' };
  }
  const found =
    bounds.kind === 'interval' && typeof value === 'number'
      ? onInterval(operator, bounds.low ?? -Infinity, bounds.high ?? Infinity, value)
      : bounds.kind === 'possible'
        ? onPossible(operator, bounds.possible, value)
        : bounds.kind === 'answers'
          ? onAnswers(operator, bounds.yes, bounds.no, value)
          : undefined;
  // Never false for want of a meaning: the engine turns the throw into a rejected run, which is seen.
  if (!found)
    throw new TypeError(
      `\`${operator}\` has no meaning for ${describe(bounds)} and ${JSON.stringify(value)}`,
    );
  return found;
}

const describe = (bounds: FactBounds): string => `a fact given as \`${bounds.kind}\``;

/** An operator as json-rules-engine registers it; `evaluate` throws on anything that is not bounds. */
export interface EngineOperator {
  readonly name: `${Family}:${BoundsOperator}`;
  readonly evaluate: (bounds: unknown, value: unknown) => boolean;
}

/** Both families, to register with `engine.addOperator(name, evaluate)` before the first run. */
export const operators: readonly EngineOperator[] = FAMILIES.flatMap((family) =>
  BOUNDS_OPERATORS.map((operator) => ({
    name: `${family}:${operator}` as const,
    evaluate: (bounds: unknown, value: unknown) => {
      if (!isBounds(bounds))
        throw new TypeError(`\`${family}:${operator}\` reads bounds, not ${JSON.stringify(bounds)}`);
      if (value === null || value === undefined)
        throw new TypeError(`\`${family}:${operator}\` needs a right side`);
      return answer(operator, bounds, value as EngineValue)[family];
    },
  })),
);

function isBounds(value: unknown): value is FactBounds {
  return typeof value === 'object' && value !== null && 'kind' in value && 'recorded' in value;
}
