import type { Answer, BoundsOperator } from './boundsOperator.ts';

/** Numbers, days and instants that lie between `low` and `high`; both ends count as possible. */
export function onInterval(
  operator: BoundsOperator,
  low: number,
  high: number,
  value: number,
): Answer | undefined {
  switch (operator) {
    case 'equal':
      return { certainly: low === value && high === value, possibly: low <= value && value <= high };
    case 'notEqual':
      return { certainly: value < low || high < value, possibly: low !== value || high !== value };
    case 'lessThan':
    case 'before':
      return { certainly: high < value, possibly: low < value };
    case 'lessThanInclusive':
      return { certainly: high <= value, possibly: low <= value };
    case 'greaterThan':
    case 'after':
      return { certainly: low > value, possibly: high > value };
    case 'greaterThanInclusive':
      return { certainly: low >= value, possibly: high >= value };
    default:
      return undefined;
  }
}
