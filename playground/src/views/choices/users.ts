import type { Condition, Release, Rule } from '@dwellset/core';
import { computed } from '@preact/signals';
import { opened } from '../../bench/client.ts';
import { split } from '../../draft/draft.ts';
import { draft } from '../../draft/state.ts';
import { releaseOf } from '../../words.ts';

export interface User {
  readonly set: string;
  readonly rule: string;
  readonly title: string;
}

function named(part: unknown, found: Set<string>): Set<string> {
  if (typeof part !== 'object' || part === null) return found;
  const { condition } = part as { condition?: unknown };
  if (typeof condition === 'string') found.add(condition);
  for (const inner of Object.values(part)) named(inner, found);
  return found;
}

/** What a part names: every text in it, and every place of a text that a value is put into. */
function mentions(part: unknown, found: Set<string>): Set<string> {
  if (typeof part === 'string') {
    found.add(part);
    for (const [, place = ''] of part.matchAll(/\{\{([\w.-]+)/g)) found.add(place);
  } else if (typeof part === 'object' && part !== null) {
    for (const inner of Object.values(part)) mentions(inner, found);
  }
  return found;
}

/** What is named, by which rules: in their own conditions and texts, or through a condition with a name. */
function indexOf({ rules, conditions }: Release): ReadonlyMap<string, readonly Rule[]> {
  const ofConditions = new Map(Object.entries(conditions).map(([id, one]) => [id, mentions(one, new Set())]));
  const index = new Map<string, Rule[]>();
  for (const rule of rules) {
    const found = mentions(rule, new Set());
    for (const id of conditionsBehind(rule, conditions))
      for (const one of ofConditions.get(id) ?? []) found.add(one);
    for (const id of found) {
      const known = index.get(id);
      if (known) known.push(rule);
      else index.set(id, [rule]);
    }
  }
  return index;
}

const indexes = new WeakMap<Release, ReturnType<typeof indexOf>>();
/** Rules that the author changed, as one text; a local choice changes who uses it in none. */
const edited = computed(() => Object.keys(draft.value.rules).join(' '));
const rewritten = computed(() => new Set(edited.value.split(' ').map((key) => split(key)[0])));

/** Rules that rest on a choice: in their own conditions and texts, or through a condition with a name. */
export function usersOf(id: string): User[] {
  return (opened.value?.sets ?? []).flatMap(({ id: set }) => {
    const release = releaseOf(set, rewritten.value.has(set) ? 'ours' : 'base');
    if (!release) return [];
    const index = indexes.get(release) ?? indexOf(release);
    indexes.set(release, index);
    return (index.get(id) ?? []).map(({ id: rule, title }) => ({ set, rule, title }));
  });
}

/** Names of the conditions that a rule stands on, directly or through another. */
export function conditionsBehind(rule: Rule, conditions: Readonly<Record<string, Condition>>): string[] {
  const found = named(rule, new Set());
  for (const name of found) named(conditions[name], found);
  return [...found].filter((name) => name in conditions);
}
