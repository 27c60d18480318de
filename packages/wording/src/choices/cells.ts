import type { TableColumn } from '@dwellset/core';
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
