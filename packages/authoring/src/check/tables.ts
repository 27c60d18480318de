import { skeleton } from './confusables.ts';
import { checkCode, checkConstant } from './constants.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { TableEntry, Typed } from './entries.ts';
import { checkEvidenceIds } from './evidence.ts';
import { didYouMean } from './nearest.ts';
import { checkChoice } from './parameters.ts';
import { checkListName, checkOrder } from './typeKeys.ts';

/** A table of local choices: every code of its key has a row with every column, or there is an `otherwise`. */
export function checkTable(table: TableEntry, outer: Context): void {
  const context = { ...outer, owner: `table \`${table.id}\`` };
  const { entry, columns, key } = table;
  const { lists } = context.survey;
  checkListName(entry.at('key'), context.owner, lists.keys(), context);
  for (const [, column] of entry.at('columns').entries) {
    checkListName(column.at('codes'), context.owner, lists.keys(), context);
  }
  const rows = entry.at('rows');
  for (const [code, row] of rows.entries) {
    checkCode(row, code, key, table.id, context, 'key');
    checkCells(row, columns, context);
    for (const [name, cell] of row.entries) checkCell(cell, columns.get(skeleton(name)), context);
  }
  const otherwise = entry.at('otherwise');
  if (otherwise.isObject) {
    checkCells(otherwise, columns, context);
    for (const [name, cell] of otherwise.entries)
      checkValue(cell, columns.get(skeleton(name)), name, undefined, context);
  } else if (!context.find.isMisspelt(entry, 'otherwise')) checkRows(rows, table, context);
}

function checkRows(rows: Cursor, { key }: TableEntry, { find, owner, survey }: Context): void {
  const list = key === undefined ? undefined : survey.lists.get(key);
  if (list === undefined || !rows.isObject) return;
  const written = new Set(rows.keys.map(skeleton));
  const left = [...list.words.keys()].filter((code) => !written.has(code));
  if (left.length === 0) return;
  find.report('table-row-missing', rows, {
    message: `${owner} has no row for ${left.map((code) => `\`${code}\``).join(', ')} and no \`otherwise\``,
    expected: left.join(', '),
  });
}

function checkCells(row: Cursor, columns: TableEntry['columns'], { find, owner }: Context): void {
  const unknown = row.keys.filter((name) => !columns.has(skeleton(name)));
  const open = [...columns.keys()].filter((name) => !row.has(name));
  for (const name of unknown) {
    const message = `${owner} has no column \`${name}\``;
    find.report('unknown-column', row.at(name), {
      part: 'key',
      message,
      received: name,
      ...didYouMean(name, open),
    });
  }
  const missing = open.filter(
    (name) => !unknown.some((other) => skeleton(other) === name || didYouMean(other, [name]).hint),
  );
  if (missing.length === 0 || !row.isObject) return;
  find.report('table-cell-missing', row, {
    message: `the row \`${row.key}\` of ${owner} has no ${missing.map((name) => `\`${name}\``).join(', ')}`,
    expected: missing.join(', '),
  });
}

function checkCell(cell: Cursor, column: Typed | undefined, context: Context): void {
  const range = cell.at('range');
  checkOrder(range, context.owner, context);
  checkValue(cell.at('value'), column, cell.key, range.band, context);
  checkEvidenceIds(cell.at('evidence'), context);
  for (const position of cell.at('positions').items) {
    checkValue(position.at('value'), column, cell.key, range.band, context);
    checkEvidenceIds(position.at('evidence'), context);
  }
}

/** `null` is no entry, whatever the column. */
function checkValue(
  at: Cursor,
  column: Typed | undefined,
  name: string,
  range: readonly [number, number] | undefined,
  context: Context,
): void {
  if (column === undefined || at.value === null || !at.exists) return;
  if (column.type === 'number') checkChoice(at, column, range, name, context);
  else checkConstant(at, column, name, context);
}
