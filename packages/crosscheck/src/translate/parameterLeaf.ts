import type { Constant, Operator } from '@dwellset/core';

/**
 * A leaf over a local choice is a constant of the release: both sides are known, so it is decided here and the
 * engine sees only its answer. `undefined` where the operator has no meaning for the values.
 */
export function foldParameterLeaf(
  chosen: Constant,
  operator: Operator,
  value: Constant,
): boolean | undefined {
  if (isList(chosen)) return foldList(chosen, operator, value);
  if (isList(value)) {
    if (operator === 'in') return typeof chosen === 'string' ? value.includes(chosen) : undefined;
    if (operator === 'notIn') return typeof chosen === 'string' ? !value.includes(chosen) : undefined;
    return undefined;
  }
  if (typeof chosen !== typeof value) return undefined;
  if (operator === 'equal') return chosen === value;
  if (operator === 'notEqual') return chosen !== value;
  return typeof chosen === 'number' && typeof value === 'number' ? order(chosen, operator, value) : undefined;
}

const isList = (value: Constant): value is readonly string[] => Array.isArray(value);

function foldList(chosen: readonly string[], operator: Operator, value: Constant): boolean | undefined {
  if (isList(value))
    return operator === 'containsAny' ? value.some((code) => chosen.includes(code)) : undefined;
  if (typeof value !== 'string') return undefined;
  if (operator === 'contains') return chosen.includes(value);
  if (operator === 'doesNotContain') return !chosen.includes(value);
  return undefined;
}

function order(chosen: number, operator: Operator, value: number): boolean | undefined {
  switch (operator) {
    case 'lessThan':
      return chosen < value;
    case 'lessThanInclusive':
      return chosen <= value;
    case 'greaterThan':
      return chosen > value;
    case 'greaterThanInclusive':
      return chosen >= value;
    default:
      return undefined;
  }
}
