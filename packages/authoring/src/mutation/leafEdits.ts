import type { Condition, Constant, FactLeaf, Operator, ParameterLeaf } from '@dwellset/core';
import type { MistakeKind } from './shape.ts';
import { constantEdits } from './values.ts';

/** What a comparison is about: a fact or a local choice, with the value it is held against. */
export interface Described {
  readonly type: string;
  /** Between neighbouring values: in the unit, in days, or in ms. */
  readonly step: number;
  readonly codes: readonly string[];
  /** The constant, or the value in force of the local choice that stands for it. */
  readonly value: Constant | undefined;
}

const STRICTNESS: Partial<Record<Operator, Operator>> = {
  lessThan: 'lessThanInclusive',
  lessThanInclusive: 'lessThan',
  greaterThan: 'greaterThanInclusive',
  greaterThanInclusive: 'greaterThan',
  before: 'lessThanInclusive',
  after: 'greaterThanInclusive',
};

const OPPOSITE: Partial<Record<Operator, Operator>> = {
  lessThan: 'greaterThanInclusive',
  lessThanInclusive: 'greaterThan',
  greaterThan: 'lessThanInclusive',
  greaterThanInclusive: 'lessThan',
  before: 'greaterThanInclusive',
  after: 'lessThanInclusive',
  equal: 'notEqual',
  notEqual: 'equal',
  in: 'notIn',
  notIn: 'in',
  contains: 'doesNotContain',
  doesNotContain: 'contains',
  recorded: 'notRecorded',
  notRecorded: 'recorded',
};

interface LeafEdit {
  readonly kind: MistakeKind;
  readonly after: Condition;
}

/** The mistakes of one comparison. */
export function leafEdits(leaf: FactLeaf | ParameterLeaf, described: Described): LeafEdit[] {
  const operators = [STRICTNESS[leaf.operator], OPPOSITE[leaf.operator]].flatMap((operator) =>
    operator === undefined ? [] : [{ kind: 'comparison' as const, after: { ...leaf, operator } }],
  );
  // `containsAny` has no counterpart of its own.
  const turned: LeafEdit[] =
    leaf.operator === 'containsAny' ? [{ kind: 'comparison', after: { not: leaf } }] : [];
  const { value } = described;
  // Yes for no is the same as the opposite operator.
  if (value === undefined || typeof value === 'boolean') return [...operators, ...turned];
  const kind = typeof value === 'number' || described.type.startsWith('date') ? 'limit' : 'code';
  const values = constantEdits(described).map(
    (other) => ({ kind, after: { ...leaf, value: other } }) as const,
  );
  return [...operators, ...turned, ...values];
}
