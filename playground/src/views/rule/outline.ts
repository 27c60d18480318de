import { operatorsFor, takesList, takesNothing } from '@dwellset/authoring';
import type {
  Condition,
  Constant,
  Fact,
  FactLeaf,
  Operator,
  Parameter,
  ParameterReference,
} from '@dwellset/core';

export type Value = Constant | ParameterReference | undefined;

export const isReference = (value: Value): value is ParameterReference =>
  typeof value === 'object' && value !== null && 'parameter' in value;

export const operatorsOf = (fact: Pick<Fact, 'type'> | undefined): readonly Operator[] =>
  (operatorsFor(fact?.type, 'fact') ?? ['recorded', 'notRecorded']) as readonly Operator[];

/** A value that fits the fact, to start from. */
export function firstValue(fact: Fact | undefined, codes: readonly string[]): Constant {
  switch (fact?.type) {
    case 'number':
      return fact.usual?.[0] ?? fact.limits?.[0] ?? 0;
    case 'code':
    case 'codes':
      return codes[0] ?? '';
    case 'date':
      return '2026-01-01';
    case 'date-time':
      return '2026-01-01T00:00:00Z';
    default:
      return true;
  }
}

/** Keeps as much of a value as the operator can take. */
export function fitted(operator: Operator, value: Value, start: Constant): Value {
  if (takesNothing(operator)) return undefined;
  if (value === undefined) return takesList(operator) ? [start as string] : start;
  if (isReference(value)) return value;
  if (takesList(operator)) return Array.isArray(value) ? value : [String(value)];
  return Array.isArray(value) ? ((value[0] as string | undefined) ?? start) : value;
}

export function leaf(fact: string, operator: Operator, value: Value): FactLeaf {
  return value === undefined ? { fact, operator } : { fact, operator, value };
}

/** Local choices that could stand on the right side of a fact. */
export function fittingChoices(
  fact: Fact | undefined,
  operator: Operator,
  all: Iterable<Parameter>,
): Parameter[] {
  if (!fact || takesNothing(operator)) return [];
  const wantsList = takesList(operator);
  return [...all].filter(({ type, unit, codes }) => {
    if (fact.type === 'codes') return type === (wantsList ? 'codes' : 'code') && codes === fact.codes;
    if (fact.type === 'code') return type === (wantsList ? 'codes' : 'code') && codes === fact.codes;
    return type === fact.type && unit === fact.unit;
  });
}

/** The list of a group, whichever kind it is. */
export const membersOf = (condition: Condition): readonly Condition[] | undefined =>
  'all' in condition ? condition.all : 'any' in condition ? condition.any : undefined;

/** Whether a value has the shape of a condition, as far as the outline can show it. */
export function isCondition(value: unknown): value is Condition {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const node = value as Record<string, unknown>;
  if ('all' in node || 'any' in node) {
    const members = node.all ?? node.any;
    return Array.isArray(members) && members.every(isCondition);
  }
  if ('not' in node) return isCondition(node.not);
  if ('condition' in node) return typeof node.condition === 'string';
  if ('fact' in node) return typeof node.fact === 'string' && typeof node.operator === 'string';
  return typeof node.parameter === 'string' && typeof node.operator === 'string';
}
