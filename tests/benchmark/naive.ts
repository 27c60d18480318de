import { compares, type Plain, type PlainCase } from './twoValued.ts';

/** True, false or, where a fact that is missing decides, undefined: read straight off the condition, case by case. */
export function naive(condition: Plain, given: PlainCase): boolean | undefined {
  switch (condition.kind) {
    case 'constant':
      return condition.value;
    case 'not': {
      const inner = naive(condition.of, given);
      return inner === undefined ? undefined : !inner;
    }
    case 'leaf': {
      const value = given[condition.fact];
      return value === undefined ? undefined : compares(value, condition.operator, condition.value);
    }
    default: {
      const alone = condition.kind === 'any';
      const parts = condition.of.map((part) => naive(part, given));
      if (parts.includes(alone)) return alone;
      return parts.includes(undefined) ? undefined : !alone;
    }
  }
}
