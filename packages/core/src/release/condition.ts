/**
 * The condition tree of a rule: a strict subset of json-rules-engine's tree (`all`, `any`, `not`, named
 * `condition`, leaf) plus parameter leaves and the operators `recorded`, `notRecorded`, `containsAny`,
 * `before` and `after`. Every node carries exactly one of its keys.
 */
export type Condition =
  | { readonly all: readonly Condition[] }
  | { readonly any: readonly Condition[] }
  | { readonly not: Condition }
  | { readonly condition: string }
  | FactLeaf
  | ParameterLeaf;

export const OPERATORS = [
  'equal',
  'notEqual',
  'in',
  'notIn',
  'contains',
  'doesNotContain',
  'containsAny',
  'lessThan',
  'lessThanInclusive',
  'greaterThan',
  'greaterThanInclusive',
  'before',
  'after',
  'recorded',
  'notRecorded',
] as const;

export type Operator = (typeof OPERATORS)[number];

/** A typed constant: numbers in the unit of the fact, dates as ISO 8601 text, codes as their words' keys. */
export type Constant = boolean | number | string | readonly string[];

export interface ParameterReference {
  readonly parameter: string;
}

export interface FactLeaf {
  readonly fact: string;
  readonly operator: Operator;
  /** Absent for `recorded` and `notRecorded`. */
  readonly value?: Constant | ParameterReference;
}

/** A leaf over a local choice: constant within one release, shown in the reasons as a local choice. */
export interface ParameterLeaf {
  readonly parameter: string;
  readonly operator: Operator;
  readonly value: Constant | ParameterReference;
}
