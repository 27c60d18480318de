import type { CodeList, Fact, Parameter, Release, Table } from '@dwellset/core';

/** The words that rule sets bring along: titles, phrases, code words and units by id. */
export interface Words {
  readonly facts: ReadonlyMap<string, Fact>;
  readonly codes: Readonly<Record<string, CodeList>>;
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly tables: ReadonlyMap<string, Table>;
  /** Set → title. */
  readonly sets: ReadonlyMap<string, string>;
  /** `set/rule` → title. */
  readonly rules: ReadonlyMap<string, string>;
  /** `set/conclusion` → title. */
  readonly conclusions: ReadonlyMap<string, string>;
}

/** Gathers the words of several releases; of two entries with one id the first stands. */
export function wordsOf(releases: readonly Release[]): Words {
  const facts = new Map<string, Fact>();
  const codes: Record<string, CodeList> = {};
  const parameters = new Map<string, Parameter>();
  const tables = new Map<string, Table>();
  const sets = new Map<string, string>();
  const rules = new Map<string, string>();
  const conclusions = new Map<string, string>();
  for (const release of releases) {
    sets.set(release.id, release.title);
    for (const fact of release.facts) if (!facts.has(fact.id)) facts.set(fact.id, fact);
    for (const [name, list] of Object.entries(release.codes)) codes[name] = { ...list, ...codes[name] };
    for (const parameter of release.parameters) parameters.set(parameter.id, parameter);
    for (const table of release.tables) tables.set(table.id, table);
    for (const rule of release.rules) rules.set(`${release.id}/${rule.id}`, rule.title);
    for (const conclusion of [...(release.conclusions ?? []), release.defaultConclusion]) {
      if (conclusion) conclusions.set(`${release.id}/${conclusion.id}`, conclusion.title);
    }
  }
  return { facts, codes, parameters, tables, sets, rules, conclusions };
}

/** A title in the middle of a sentence; abbreviations such as PVR keep their capitals. */
export function lowerFirst(text: string): string {
  const [first = '', second = ''] = text;
  return second !== '' && second !== second.toLowerCase() ? text : first.toLowerCase() + text.slice(1);
}

export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `a, b or c`; one item stands alone. */
export function listed(items: readonly string[], by: 'and' | 'or'): string {
  if (items.length < 2) return items[0] ?? '';
  return `${items.slice(0, -1).join(', ')} ${by} ${items.at(-1)}`;
}

/** `1 rule`, `2 rules`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A fact's title inside a sentence; its id where no release names it. */
export function factTitle(id: string, words: Words): string {
  const fact = words.facts.get(id);
  return fact ? lowerFirst(fact.title) : id;
}
