import type { Condition, Constant, Fact, FactLeaf, Operator, ParameterReference } from '@dwellset/core';
import { earlier, isoDate, isoInstant } from './moments.ts';
import type { Random } from './random.ts';
import { codesOf } from './vocabulary.ts';

export const COMPARISONS = ['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive'] as const;
export const OPERATORS_OF: Readonly<Record<Fact['type'], readonly Operator[]>> = {
  list: ['recorded', 'notRecorded'],
  boolean: ['equal', 'notEqual'],
  code: ['equal', 'notEqual', 'in', 'notIn'],
  codes: ['contains', 'doesNotContain', 'containsAny'],
  number: ['equal', 'notEqual', ...COMPARISONS, ...COMPARISONS],
  date: [...COMPARISONS, 'before', 'after'],
  'date-time': [...COMPARISONS, 'before', 'after'],
  text: ['recorded', 'notRecorded'],
};
const SAME_UNIT: Readonly<Record<string, string>> = {
  mL: 'choice.volume',
  h: 'choice.hours',
  '1': 'choice.share',
};

export interface Terms {
  readonly facts: readonly Fact[];
  readonly named: readonly string[];
  /** Instants in conditions lie around this one. */
  readonly around: number;
}

export function generateCondition(random: Random, terms: Terms, depth: number): Condition {
  const inner = () => generateCondition(random, terms, depth - 1);
  const group = () => Array.from({ length: random.integer(1, depth > 2 ? 2 : 3) }, inner);
  const deep = depth > 1;
  return random.weighted<() => Condition>([
    [deep ? 2 : 0, () => ({ all: group() })],
    [deep ? 3 : 0, () => ({ any: group() })],
    [deep ? 1 : 0, () => ({ not: inner() })],
    [terms.named.length > 0 ? 0.5 : 0, () => ({ condition: random.pick(terms.named) })],
    [0.4, () => parameterLeaf(random)],
    [4, () => factLeaf(random, random.pick(terms.facts), terms.around)],
  ])();
}

function factLeaf(random: Random, fact: Fact, around: number): FactLeaf {
  const operator = random.chance(0.12)
    ? random.pick(['recorded', 'notRecorded'] as const)
    : random.pick(OPERATORS_OF[fact.type]);
  if (operator === 'recorded' || operator === 'notRecorded') return { fact: fact.id, operator };
  return { fact: fact.id, operator, value: rightSide(random, fact, operator, around) };
}

function rightSide(
  random: Random,
  fact: Fact,
  operator: Operator,
  around: number,
): Constant | ParameterReference {
  const choice = random.chance(0.3);
  switch (fact.type) {
    case 'boolean':
      return choice ? { parameter: 'choice.flag' } : random.chance(0.7);
    case 'number': {
      const parameter = SAME_UNIT[fact.unit ?? ''];
      return choice && parameter && fact.step !== 1 ? { parameter } : numberNear(random, fact);
    }
    case 'date':
      return isoDate(earlier(random, around));
    case 'date-time':
      return isoInstant(random, earlier(random, around));
    default: {
      const codes = codesOf(fact.codes as string);
      const list = ['in', 'notIn', 'containsAny'].includes(operator);
      if (choice && fact.codes === 'materials')
        return { parameter: list ? 'choice.materials' : 'choice.material' };
      return list ? random.some(codes, 0.6) : random.pick(codes);
    }
  }
}

/** A value inside the fact's limits and on its step, often one that cases use too. */
export function numberNear(random: Random, fact: Fact): number {
  const step = fact.step ?? 1;
  const [low, high] = fact.limits ?? [-4, 16];
  const value =
    Math.round(random.integer(Math.ceil(low / step), Math.floor(Math.min(high, low + 24) / step))) * step;
  return Number(value.toFixed(2));
}

/** True or false by a local choice alone. */
export function parameterLeaf(random: Random): Condition {
  return random.pick<() => Condition>([
    () => ({ parameter: 'choice.flag', operator: 'equal', value: random.chance(0.5) }),
    () => ({ parameter: 'choice.volume', operator: random.pick(COMPARISONS), value: random.integer(1, 12) }),
    () => ({
      parameter: 'choice.material',
      operator: random.pick(['in', 'notIn'] as const),
      value: random.some(codesOf('materials')),
    }),
    () => ({
      parameter: 'choice.material',
      operator: random.pick(['equal', 'notEqual'] as const),
      value: random.pick(codesOf('materials')),
    }),
    () => ({
      parameter: 'choice.materials',
      operator: 'containsAny',
      value: random.some(codesOf('materials')),
    }),
    () => ({
      parameter: 'choice.materials',
      operator: random.pick(['contains', 'doesNotContain'] as const),
      value: random.pick(codesOf('materials')),
    }),
  ])();
}
