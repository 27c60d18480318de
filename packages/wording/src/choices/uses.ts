import type { Condition, Derivation, Release, Rule } from '@dwellset/core';

/** Everything of the dictionary and the local choices that one rule turns on, however indirectly. */
export interface Uses {
  readonly facts: ReadonlySet<string>;
  readonly parameters: ReadonlySet<string>;
  readonly tables: ReadonlySet<string>;
  /** Where a value is looked up in a table, and by which fact. */
  readonly lookups: ReadonlySet<Lookup>;
}

type Lookup = Extract<Derivation, { readonly lookup: unknown }>['lookup'];

/** Parts of a rule in which conditions and places of texts stand. */
const spokenParts = ({ scope, when, expect, excludes, prefers, remarks, advice }: Rule): unknown[] => [
  scope,
  when,
  expect,
  excludes,
  prefers,
  remarks,
  advice,
];

/**
 * Follows names from what is given through named conditions and derivations to their end. Facts, local choices and
 * tables share one space of names, so that a text that is one of their ids can be nothing else; texts of advice
 * name theirs in double braces.
 */
function usesOf(start: readonly unknown[], release: Release): Uses {
  const facts = new Set<string>();
  const parameters = new Set<string>();
  const tables = new Set<string>();
  const lookups = new Set<Lookup>();
  const named = new Set<string>();
  const known = {
    facts: new Map(release.facts.map((fact) => [fact.id, fact])),
    parameters: new Set(release.parameters.map(({ id }) => id)),
    tables: new Set(release.tables.map(({ id }) => id)),
  };
  const name = (text: string): void => {
    if (known.parameters.has(text)) parameters.add(text);
    if (known.tables.has(text)) tables.add(text);
    const fact = known.facts.get(text);
    if (fact === undefined || facts.has(text)) return;
    facts.add(text);
    if (fact.from && 'lookup' in fact.from) lookups.add(fact.from.lookup);
    walk(fact.from);
  };
  const walk = (value: unknown): void => {
    if (typeof value === 'string') {
      name(value);
      for (const [, place = ''] of value.matchAll(/\{\{([^{}]*)\}\}/g)) name(place);
    } else if (Array.isArray(value)) value.forEach(walk);
    else if (typeof value === 'object' && value !== null) {
      const { condition } = value as { condition?: unknown };
      if (typeof condition === 'string' && !named.has(condition)) {
        named.add(condition);
        walk(release.conditions[condition]);
      }
      Object.values(value).forEach(walk);
    }
  };
  start.forEach(walk);
  return { facts, parameters, tables, lookups };
}

export const usesOfRule = (rule: Rule, release: Release): Uses => usesOf(spokenParts(rule), release);

/** What the set as a whole turns on: its patients and when it is asked. */
export const usesOfSet = ({ population, scope }: Release, release: Release): Uses =>
  usesOf([population?.when, scope] satisfies (Condition | undefined)[], release);

export const usesOfFacts = (facts: Iterable<string>, release: Release): Uses => usesOf([...facts], release);
