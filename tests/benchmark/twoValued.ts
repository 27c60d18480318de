import {
  type Case,
  type Condition,
  type Constant,
  evaluate,
  exactValue,
  type Fact,
  type FactLeaf,
  type Operator,
  type ParameterReference,
  type Plan,
  type Release,
  type Rule,
  TRUE,
} from '@dwellset/core';

/** A condition as engines without "unknown" are given it: named conditions written out, local choices put in. */
export type Plain =
  | { readonly kind: 'all' | 'any'; readonly of: readonly Plain[] }
  | { readonly kind: 'not'; readonly of: Plain }
  | { readonly kind: 'constant'; readonly value: boolean }
  | { readonly kind: 'leaf'; readonly fact: string; readonly operator: Operator; readonly value: Value };

export type Value = boolean | number | string | readonly string[];
/** What such an engine is told of one case: values alone, and no key for what is missing. */
export type PlainCase = Readonly<Record<string, Value>>;

export interface PlainRule {
  readonly id: string;
  readonly scope: Plain;
  readonly when: Plain;
  /** Both: all that must hold for the rule to speak. */
  readonly condition: Plain;
}

/** Engines read a dot as the way into an object. */
const plainName = (fact: string): string => fact.replaceAll(/[.-]/g, '_');

/** The rules of a release; those that are switched off are left out. */
export function plainRules(release: Release, plan: Plan): readonly PlainRule[] {
  const set = plan.sets.find((one) => one.release.id === release.id)!;
  return set.rules.filter(({ switchedOff }) => !switchedOff).map(({ rule }) => plainRule(release, rule));
}

function plainRule(release: Release, rule: Rule): PlainRule {
  const write = plainWriter(release);
  const limits = [rule.anyPopulation ? undefined : release.population?.when, release.scope, rule.scope];
  const scope = joined(limits.flatMap((limit) => (limit ? [write(limit)] : [])));
  const when: Plain = rule.expect
    ? { kind: 'not', of: write(rule.expect) }
    : joined(rule.when ? [write(rule.when)] : []);
  const both = [scope, when].filter(({ kind }) => kind !== 'constant');
  return { id: `${release.id}/${rule.id}`, scope, when, condition: joined(both) };
}

const joined = (parts: readonly Plain[]): Plain =>
  parts.length === 0
    ? { kind: 'constant', value: true }
    : parts.length === 1
      ? parts[0]!
      : { kind: 'all', of: parts };

/** Writes the conditions of a release plainly. */
export function plainWriter(release: Release): (condition: Condition) => Plain {
  const facts = new Map(release.facts.map((fact) => [fact.id, fact]));
  const parameters = new Map(release.parameters.map((one) => [one.id, one.value]));
  const constant = (value: Constant | ParameterReference): Constant =>
    typeof value === 'object' && 'parameter' in value ? parameters.get(value.parameter)! : value;
  const write = (condition: Condition): Plain => {
    if ('all' in condition) return { kind: 'all', of: condition.all.map(write) };
    if ('any' in condition) return { kind: 'any', of: condition.any.map(write) };
    if ('not' in condition) return { kind: 'not', of: write(condition.not) };
    if ('condition' in condition) return write(release.conditions[condition.condition]!);
    if ('fact' in condition) return leafOf(facts.get(condition.fact)!, condition, constant);
    const chosen = parameters.get(condition.parameter)!;
    return { kind: 'constant', value: compares(chosen, condition.operator, constant(condition.value)) };
  };
  return write;
}

function leafOf(
  fact: Fact,
  leaf: FactLeaf,
  constant: (value: Constant | ParameterReference) => Constant,
): Plain {
  const given = leaf.value === undefined ? true : constant(leaf.value);
  const value = typeof given === 'string' ? inTermsOf(fact, given) : given;
  return { kind: 'leaf', fact: plainName(leaf.fact), operator: leaf.operator, value };
}

function inTermsOf(fact: Fact, text: string): Value {
  if (fact.type === 'date') return Date.parse(`${text}T00:00:00Z`) / 86_400_000;
  return fact.type === 'date-time' ? Date.parse(text) : text;
}

/** One known value against one constant. */
export function compares(value: Value, operator: Operator, expected: Value): boolean {
  const within = (list: Value, code: Value): boolean => (list as readonly unknown[]).includes(code);
  switch (operator) {
    case 'equal':
      return value === expected;
    case 'notEqual':
      return value !== expected;
    case 'in':
      return within(expected, value);
    case 'notIn':
      return !within(expected, value);
    case 'contains':
      return within(value, expected);
    case 'doesNotContain':
      return !within(value, expected);
    case 'containsAny':
      return (expected as readonly string[]).some((code) => within(value, code));
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

/**
 * What a careful user hands over: every value that is exactly known, in the unit of its fact, derived facts worked out
 * already; of several codes those that were named. The rest is left out.
 */
export function plainCase(plan: Plan, patient: Case): PlainCase {
  const given: Record<string, Value> = {};
  for (const [id, { fact, bounds }] of evaluate(plan, patient).readings) {
    if (bounds.kind === 'answers') {
      const named = [...bounds.answers].flatMap(([code, answer]) => (answer === TRUE ? [code] : []));
      if (named.length > 0 || exactValue(bounds) !== undefined) given[plainName(id)] = named;
      continue;
    }
    const value = exactValue(bounds);
    if (value !== undefined) given[plainName(id)] = fact.type === 'boolean' ? value === 'true' : value;
  }
  return given;
}
