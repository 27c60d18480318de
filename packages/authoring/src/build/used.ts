import type { Rule } from '@dwellset/core';
import type { Parts } from './parts.ts';
import { addCondition, addFact, addRule, addText, noReferences, type References } from './references.ts';

export interface Missing {
  readonly kind: 'fact' | 'parameter' | 'table' | 'condition' | 'placeholder';
  readonly id: string;
}

/** What is used directly or through named conditions, derivations and `notBefore`. */
export interface Used {
  readonly facts: ReadonlySet<string>;
  readonly parameters: ReadonlySet<string>;
  readonly tables: ReadonlySet<string>;
  readonly conditions: ReadonlySet<string>;
  readonly sets: ReadonlySet<string>;
  readonly missing: readonly Missing[];
}

/** Follows every reference to its end. */
function follow(parts: Parts, from: References): Used {
  const found = noReferences();
  const missing = new Map<string, Missing>();
  let open: References = from;
  const miss = (kind: Missing['kind'], id: string) => missing.set(`${kind} ${id}`, { kind, id });
  for (;;) {
    const next = noReferences();
    const news = (key: keyof References) => [...open[key]].filter((id) => !found[key].has(id));
    for (const id of news('conditions')) {
      const condition = parts.conditions.get(id);
      if (condition) addCondition(next, condition);
      else miss('condition', id);
    }
    for (const id of news('facts')) {
      const fact = parts.facts.get(id);
      if (fact) addFact(next, fact);
      else miss('fact', id);
    }
    for (const id of news('placeholders')) {
      if (parts.facts.has(id)) next.facts.add(id);
      else if (parts.parameters.has(id)) next.parameters.add(id);
      else miss('placeholder', id);
    }
    for (const id of news('parameters')) if (!parts.parameters.has(id)) miss('parameter', id);
    for (const id of news('tables')) if (!parts.tables.has(id)) miss('table', id);
    for (const key of keysOf(found)) for (const id of open[key]) found[key].add(id);
    if (keysOf(next).every((key) => [...next[key]].every((id) => found[key].has(id)))) break;
    open = next;
  }
  return { ...found, missing: [...missing.values()] };
}

const keysOf = (references: References): (keyof References)[] =>
  Object.keys(references) as (keyof References)[];

/** References of what holds for every rule of the set. */
function addGate(to: References, parts: Parts): void {
  addCondition(to, parts.ruleSet.scope);
  addCondition(to, parts.ruleSet.population?.when);
  addText(to, parts.ruleSet.population?.otherwise);
}

/** What the whole set uses; the facts that its stock states are shown with each option. */
export function usedBySet(parts: Parts): Used {
  const direct = noReferences();
  addGate(direct, parts);
  for (const rule of parts.rules) addRule(direct, rule);
  for (const items of Object.values(parts.stock)) {
    for (const item of items) for (const id of Object.keys(item.facts)) direct.facts.add(id);
  }
  return follow(parts, direct);
}

/** What one rule rests on: everything that can change its outcome or its text. */
export function usedByRule(parts: Parts, rule: Rule): Used {
  const direct = noReferences();
  addGate(direct, parts);
  addRule(direct, rule);
  return follow(parts, direct);
}
