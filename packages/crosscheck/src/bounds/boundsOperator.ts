import { OPERATORS, type Operator } from '@dwellset/core';

/** `certainly`: true for every possible value. `possibly`: true for some. */
export const FAMILIES = ['certainly', 'possibly'] as const;
export type Family = (typeof FAMILIES)[number];

/** The rule language has no opposite of `containsAny`; the translation needs one to push a `not` down to it. */
export type BoundsOperator = Operator | 'containsNone';
export const BOUNDS_OPERATORS: readonly BoundsOperator[] = [...OPERATORS, 'containsNone'];

/** The right side of a leaf: days and instants as numbers, `true` where `recorded` needs none. */
export type EngineValue = boolean | number | string | readonly string[];

/** What a `not` in front of a leaf makes of its operator. */
export const OPPOSITE: Readonly<Record<BoundsOperator, BoundsOperator>> = {
  equal: 'notEqual',
  notEqual: 'equal',
  in: 'notIn',
  notIn: 'in',
  contains: 'doesNotContain',
  doesNotContain: 'contains',
  containsAny: 'containsNone',
  containsNone: 'containsAny',
  lessThan: 'greaterThanInclusive',
  greaterThanInclusive: 'lessThan',
  lessThanInclusive: 'greaterThan',
  greaterThan: 'lessThanInclusive',
  before: 'greaterThanInclusive',
  after: 'lessThanInclusive',
  recorded: 'notRecorded',
  notRecorded: 'recorded',
};

/** Whether a leaf holds for every possible value, and for some. */
export type Answer = Readonly<Record<Family, boolean>>;
