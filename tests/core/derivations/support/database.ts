import initSqlJs, { type Database } from 'sql.js';
import type { Cell, Columns } from './columns.ts';

/** An embedded SQLite without anything added to it. */
export async function openDatabase(): Promise<Database> {
  const { Database } = await initSqlJs({ useOldExtensionFunctions: false } as Parameters<
    typeof initSqlJs
  >[0]);
  return new Database();
}

/** A table of numbers whose columns have no type, so that whole numbers and others stay what they are. */
export function fill(database: Database, table: string, rows: readonly Columns[]): void {
  const names = Object.keys(rows[0] ?? {});
  database.run(`CREATE TABLE ${table} (${['row', ...names].join(', ')})`);
  database.run('BEGIN');
  const insert = database.prepare(
    `INSERT INTO ${table} VALUES (${['row', ...names].map(() => '?').join(', ')})`,
  );
  rows.forEach((row, index) => {
    insert.run([index, ...names.map((name) => row[name] as Cell)]);
  });
  insert.free();
  database.run('COMMIT');
}

/** Adds a table with further columns computed from those of another, and gives what was computed, row by row. */
export function compute(
  database: Database,
  from: string,
  to: string,
  expressions: Readonly<Record<string, string>>,
): readonly Columns[] {
  const printed = Object.entries(expressions).map(([name, sql]) => `${sql} AS ${name}`);
  database.run(`CREATE TABLE ${to} AS SELECT *, ${printed.join(', ')} FROM ${from}`);
  const [result] = database.exec(`SELECT ${Object.keys(expressions).join(', ')} FROM ${to} ORDER BY row`);
  return (result?.values ?? []).map((values) =>
    Object.fromEntries((result?.columns ?? []).map((name, index) => [name, values[index] as Cell])),
  );
}
