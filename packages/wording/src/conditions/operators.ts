import type { FactType, Operator } from '@dwellset/core';

const SAID: Readonly<Record<Operator, string>> = {
  equal: 'is',
  notEqual: 'is not',
  in: 'is one of',
  notIn: 'is none of',
  contains: 'include',
  doesNotContain: 'do not include',
  containsAny: 'include any of',
  lessThan: 'is less than',
  lessThanInclusive: 'is at most',
  greaterThan: 'is more than',
  greaterThanInclusive: 'is at least',
  before: 'is before',
  after: 'is after',
  recorded: 'is recorded',
  notRecorded: 'was looked for, nothing recorded',
};

const DATED: Partial<Record<Operator, string>> = {
  lessThan: 'is before',
  lessThanInclusive: 'is on or before',
  greaterThan: 'is after',
  greaterThanInclusive: 'is on or after',
};

/** An operator between the title of a fact and its value, as somebody picks it from a list. */
export const operatorWords = (operator: Operator, type?: FactType): string =>
  (type === 'date' || type === 'date-time' ? DATED[operator] : undefined) ?? SAID[operator];
