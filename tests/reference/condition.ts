import type { Condition, Constant, Fact, FactLeaf, Operator, ParameterReference } from '@dwellset/core';
import { day, instant } from './dates.ts';
import type { Known } from './known.ts';
import { all, any, not, overPossible, type Truth } from './truth.ts';
import type { World } from './world.ts';

export type Named = Readonly<Record<string, Condition>>;

/** `blind`: every fact is taken as unknown, so that only local choices speak. */
export function holds(condition: Condition, named: Named, world: World, blind = false): Truth {
  const each = (parts: readonly Condition[]) => parts.map((part) => holds(part, named, world, blind));
  if ('all' in condition) return all(each(condition.all));
  if ('any' in condition) return any(each(condition.any));
  if ('not' in condition) return not(holds(condition.not, named, world, blind));
  if ('condition' in condition) return holds(named[condition.condition] as Condition, named, world, blind);
  if ('parameter' in condition) {
    const chosen = world.parameter(condition.parameter);
    return compareValues(chosen, condition.operator, constant(condition.value, world)) ? 'true' : 'false';
  }
  return blind ? 'unknown' : leafTruth(condition, world);
}

/** The facts of the leaves that keep an undecided condition undecided. */
export function openFacts(condition: Condition, named: Named, world: World): string[] {
  if (holds(condition, named, world) !== 'unknown') return [];
  if ('all' in condition) return condition.all.flatMap((part) => openFacts(part, named, world));
  if ('any' in condition) return condition.any.flatMap((part) => openFacts(part, named, world));
  if ('not' in condition) return openFacts(condition.not, named, world);
  if ('condition' in condition) return openFacts(named[condition.condition] as Condition, named, world);
  return 'fact' in condition ? [condition.fact] : [];
}

function constant(value: Constant | ParameterReference, world: World): Constant {
  return typeof value === 'object' && 'parameter' in value ? world.parameter(value.parameter) : value;
}

function leafTruth(leaf: FactLeaf, world: World): Truth {
  const fact = world.fact(leaf.fact);
  const known = world.know(leaf.fact);
  if (leaf.operator === 'recorded') return known.recorded;
  if (leaf.operator === 'notRecorded') return not(known.recorded);
  return truthOf(fact, known, leaf.operator, constant(leaf.value as Constant, world));
}

function truthOf(fact: Fact, known: Known, operator: Operator, expected: Constant): Truth {
  if (fact.type === 'boolean' || fact.type === 'code')
    return overPossible(known.may.map((value) => compareValues(value, operator, asWords(expected))));
  if (fact.type === 'codes') {
    const wanted = typeof expected === 'string' ? [expected] : (expected as readonly string[]);
    const found = any(wanted.map((code) => known.answers[code] as Truth));
    return operator === 'doesNotContain' ? not(found) : found;
  }
  const against = inFactTerms(fact, expected);
  const { low, high } = known;
  if (operator === 'equal' || operator === 'notEqual') {
    const equal: Truth = against < low || against > high ? 'false' : low === high ? 'true' : 'unknown';
    return operator === 'equal' ? equal : not(equal);
  }
  return overPossible([low, high].map((end) => compareValues(end, operator, against)));
}

const asWords = (value: Constant): Constant => (typeof value === 'boolean' ? String(value) : value);

function inFactTerms(fact: Fact, value: Constant): number {
  if (fact.type === 'date') return day(value as string) as number;
  return fact.type === 'date-time' ? (instant(value as string) as number) : (value as number);
}

/** One value against one constant, both known. */
function compareValues(value: Constant, operator: Operator, expected: Constant): boolean {
  const list = (constantList: Constant) => constantList as readonly string[];
  switch (operator) {
    case 'equal':
      return value === expected;
    case 'notEqual':
      return value !== expected;
    case 'in':
      return list(expected).includes(value as string);
    case 'notIn':
      return !list(expected).includes(value as string);
    case 'contains':
      return list(value).includes(expected as string);
    case 'doesNotContain':
      return !list(value).includes(expected as string);
    case 'containsAny':
      return list(expected).some((code) => list(value).includes(code));
    case 'lessThan':
    case 'before':
      return value < expected;
    case 'lessThanInclusive':
      return value <= expected;
    case 'greaterThan':
    case 'after':
      return value > expected;
    case 'greaterThanInclusive':
      return value >= expected;
    case 'recorded':
      return true;
    case 'notRecorded':
      return false;
  }
}
