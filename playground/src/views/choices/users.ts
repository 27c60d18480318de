import type { Condition, Rule } from '@dwellset/core';
import { opened } from '../../bench/client.ts';
import { releaseOf } from '../../words.ts';

export interface User {
  readonly set: string;
  readonly rule: string;
  readonly title: string;
}

/** Whether a document names a thing anywhere: a parameter in a condition, or in a text. */
const names = (part: unknown, id: string): boolean => {
  if (typeof part === 'string') return part === id || part.includes(`{{${id}`);
  if (typeof part !== 'object' || part === null) return false;
  return Object.values(part).some((inner) => names(inner, id));
};

function named(part: unknown, found: Set<string>): Set<string> {
  if (typeof part !== 'object' || part === null) return found;
  const { condition } = part as { condition?: unknown };
  if (typeof condition === 'string') found.add(condition);
  for (const inner of Object.values(part)) named(inner, found);
  return found;
}

/** Rules that rest on a choice: in their own conditions and texts, or through a condition with a name. */
export function usersOf(id: string): User[] {
  return (opened.value?.sets ?? []).flatMap(({ id: set }) => {
    const release = releaseOf(set);
    if (!release) return [];
    const through = new Set<string>();
    const entries = Object.entries(release.conditions);
    // Conditions may stand on one another, so once round is not enough.
    for (let before = -1; before !== through.size; ) {
      before = through.size;
      for (const [name, condition] of entries) {
        if (names(condition, id) || [...named(condition, new Set())].some((one) => through.has(one)))
          through.add(name);
      }
    }
    const uses = (rule: Rule) =>
      names(rule, id) || [...named(rule, new Set())].some((one) => through.has(one));
    return release.rules.filter(uses).map(({ id: rule, title }) => ({ set, rule, title }));
  });
}

/** Names of the conditions that a rule stands on, directly or through another. */
export function conditionsBehind(rule: Rule, conditions: Readonly<Record<string, Condition>>): string[] {
  const found = named(rule, new Set());
  for (const name of found) named(conditions[name], found);
  return [...found].filter((name) => name in conditions);
}
