import type { Parts } from '../build/parts.ts';
import { usedByRule } from '../build/used.ts';

/** Parameters and tables that a locked rule of any set rests on, each with one such rule as `set/rule`. */
export function lockedUses(sets: Iterable<Parts>): ReadonlyMap<string, string> {
  const uses = new Map<string, string>();
  for (const parts of sets) {
    for (const rule of parts.rules) {
      if (!rule.locked) continue;
      const { parameters, tables } = usedByRule(parts, rule);
      for (const id of [...parameters, ...tables]) {
        if (!uses.has(id)) uses.set(id, `${parts.ruleSet.id}/${rule.id}`);
      }
    }
  }
  return uses;
}
