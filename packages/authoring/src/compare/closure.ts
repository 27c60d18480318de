import type { Condition, Constant, Fact, ParameterReference, Release, Rule } from '@dwellset/core';

/** Everything that one rule reads: named conditions, facts with what they are derived from, local choices, tables. */
export interface Closure {
  /** As `kind id`, in the kinds of an item change. */
  readonly items: ReadonlySet<string>;
  /** Facts that a case could supply, and the constants they are compared with. */
  readonly facts: ReadonlyMap<string, readonly Constant[]>;
}

export function closureOf(release: Release, rule: Rule): Closure {
  const items = new Set<string>([`rule ${rule.id}`]);
  const facts = new Map<string, Constant[]>();
  const parameter = (id: string): Constant | undefined => {
    items.add(`local choice ${id}`);
    return release.parameters.find((one) => one.id === id)?.value;
  };
  const resolved = (value: Constant | ParameterReference | undefined): Constant[] => {
    if (value === undefined) return [];
    if (typeof value !== 'object' || Array.isArray(value)) return [value as Constant];
    const found = parameter((value as ParameterReference).parameter);
    return found === undefined ? [] : [found];
  };
  const fact = (id: string, constants: readonly Constant[]): void => {
    const known = facts.get(id);
    facts.set(id, [...(known ?? []), ...constants]);
    if (known) return;
    items.add(`fact ${id}`);
    const found = release.facts.find((one) => one.id === id);
    if (found?.codes !== undefined) items.add(`code list ${found.codes}`);
    for (const input of inputsOf(found, release, items, parameter)) fact(input, constants.filter(isNumber));
  };
  const walk = (condition: Condition | undefined): void => {
    if (condition === undefined) return;
    if ('all' in condition) condition.all.forEach(walk);
    else if ('any' in condition) condition.any.forEach(walk);
    else if ('not' in condition) walk(condition.not);
    else if ('condition' in condition) {
      items.add(`condition ${condition.condition}`);
      walk(release.conditions[condition.condition]);
    } else if ('fact' in condition) fact(condition.fact, resolved(condition.value));
    else {
      parameter(condition.parameter);
      resolved(condition.value);
    }
  };
  for (const part of [release.population?.when, release.scope, rule.scope, rule.when, rule.expect])
    walk(part);
  walk(rule.excludes);
  walk(rule.remarks);
  if (rule.prefers && 'options' in rule.prefers) walk(rule.prefers.options);
  if (rule.prefers && 'lowest' in rule.prefers) fact(rule.prefers.lowest, []);
  for (const { id } of release.stock[rule.of ?? ''] ?? []) items.add(`stock ${rule.of}/${id}`);
  return { items, facts };
}

const isNumber = (value: Constant): value is number => typeof value === 'number';

/** Facts named anywhere in a derivation, or in those of the fields of a list; local choices and tables in it are noted on the way. */
function inputsOf(
  fact: Fact | undefined,
  release: Release,
  items: Set<string>,
  parameter: (id: string) => unknown,
): string[] {
  if (fact === undefined) return [];
  const known = new Set(release.facts.map(({ id }) => id));
  const found = new Set<string>();
  const look = (value: unknown, key = ''): void => {
    if (typeof value === 'string') {
      if (known.has(value)) found.add(value);
      if (key === 'table') items.add(`table ${value}`);
      if (key === 'parameter') parameter(value);
    } else if (Array.isArray(value)) {
      for (const part of value) look(part, key);
    } else if (typeof value === 'object' && value !== null) {
      for (const [inner, part] of Object.entries(value)) look(part, inner);
    }
  };
  look(fact.from);
  for (const { from } of Object.values(fact.item ?? {})) look(from);
  return [...found];
}
