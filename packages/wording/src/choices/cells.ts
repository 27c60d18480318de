import type { Derivation, Release, TableColumn } from '@dwellset/core';
import { codeWords } from '../values/value.ts';
import { lowerFirst, type Words } from '../words.ts';

/** One cell of a table of local choices, from its path as `table/row/column`. */
export interface Cell {
  readonly title: string;
  readonly column: TableColumn;
}

export function cellOf(path: string, words: Words): Cell | undefined {
  const [id = '', row = '', name = ''] = path.split('/');
  const table = words.tables.get(id);
  const column = table?.columns[name];
  if (table === undefined || column === undefined) return undefined;
  // Of several columns it has to be said which; of one alone the title of the table does.
  const which = Object.keys(table.columns).length === 1 ? '' : `, ${name.replaceAll('-', ' ')}`;
  return { title: `${lowerFirst(table.title)}; ${codeWords(row, table.key, words)}${which}`, column };
}

/** Adds the columns that a fact is looked up in, as `table/column`, however indirectly. */
export function columnsBehind(fact: string, release: Release, found: Set<string>): void {
  const seen = new Set<string>();
  const facts = new Map(release.facts.map((one) => [one.id, one]));
  const walk = (value: unknown): void => {
    if (typeof value === 'string') follow(value);
    else if (Array.isArray(value)) value.forEach(walk);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(walk);
  };
  const follow = (id: string): void => {
    const from: Derivation | undefined = facts.get(id)?.from;
    if (from === undefined || seen.has(id)) return;
    seen.add(id);
    if ('lookup' in from) found.add(`${from.lookup.table}/${from.lookup.column}`);
    walk(from);
  };
  follow(fact);
}
