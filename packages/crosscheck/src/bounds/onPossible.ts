import type { Answer, BoundsOperator, EngineValue } from './boundsOperator.ts';

type Single = boolean | string;

/** A code or a yes/no that is one of `possible`. An empty list says nothing, so it proves nothing either way. */
export function onPossible(
  operator: BoundsOperator,
  possible: readonly Single[],
  value: EngineValue,
): Answer | undefined {
  const holds = test(operator, value);
  if (!holds) return undefined;
  if (possible.length === 0) return { certainly: false, possibly: true };
  return { certainly: possible.every(holds), possibly: possible.some(holds) };
}

function test(operator: BoundsOperator, value: EngineValue): ((one: Single) => boolean) | undefined {
  if (Array.isArray(value)) {
    const listed: readonly Single[] = value;
    if (operator === 'in') return (one) => listed.includes(one);
    if (operator === 'notIn') return (one) => !listed.includes(one);
    return undefined;
  }
  if (operator === 'equal') return (one) => one === value;
  if (operator === 'notEqual') return (one) => one !== value;
  return undefined;
}
