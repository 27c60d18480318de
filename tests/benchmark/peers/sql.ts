import { type Case, type CodeList, evaluate, type Plan, type RuleSql, rulesSql } from '@dwellset/core';
import type { Database } from 'sql.js';
import { columnsOf } from '../../core/derivations/support/columns.ts';
import { fill } from '../../core/derivations/support/database.ts';
import type { Plain, PlainCase, PlainRule, Value } from '../twoValued.ts';

export type Cell = number | string | null;

/** Puts what was read of every case into a table, in the columns that printed rules ask for. */
export function fillReadings(database: Database, table: string, plan: Plan, cases: readonly Case[]): void {
  const codes = Object.assign({}, ...plan.sets.map(({ release }) => release.codes)) as Record<
    string,
    CodeList
  >;
  const used = [...new Set(plan.patient.leaves.map(({ fact }) => fact))];
  const rows = cases.map((patient) => {
    const { readings, zone } = evaluate(plan, patient);
    return Object.assign({}, ...used.map((id) => columnsOf(readings.get(id)!, { codes, zone })));
  });
  fill(database, table, rows);
}

/** The outcome of every rule for every case, row by row. */
export function sqlOutcomes(database: Database, table: string, rules: readonly RuleSql[]): Cell[][] {
  return inParts(rules)
    .flatMap((part, index) => {
      const printed = part.map(({ outcome }) => outcome).join(', ');
      const [result] = database.exec(`SELECT ${printed} FROM ${table} ORDER BY row`);
      const columns = (result?.values ?? []) as Cell[][];
      return [{ index, columns }];
    })
    .reduce<Cell[][]>(
      (rows, { columns }) => columns.map((cells, row) => [...(rows[row] ?? []), ...cells]),
      [],
    );
}

/** How many cases each rule holds for and leaves open; one look through the table for every hundred rules. */
export function countQueries(table: string, truths: readonly string[]): readonly string[] {
  return inParts(truths).map(
    (part) => `SELECT ${part.map((truth) => `SUM(${truth}), COUNT(${truth})`).join(', ')} FROM ${table}`,
  );
}

/** Printed by the project: a rule holds where its scope and what it looks for do. */
export const printedTruths = (plan: Plan): readonly string[] =>
  rulesSql(plan).map(({ scope, when }) => `(${scope} AND ${when})`);

/** What somebody would write by hand over a table of plain values, NULL where one is missing. */
export const writtenTruths = (rules: readonly PlainRule[]): readonly string[] =>
  rules.map(({ condition }) => writtenOf(condition));

/** Plain values for hand-written SQL; several codes as a text such as `,a,c,`. */
export function fillPlain(
  database: Database,
  table: string,
  names: readonly string[],
  cases: readonly PlainCase[],
): void {
  const cellOf = (value: Value | undefined): Cell =>
    value === undefined
      ? null
      : typeof value === 'boolean'
        ? Number(value)
        : typeof value === 'object'
          ? `,${value.join()},`
          : value;
  const rows = cases.map((given) => Object.fromEntries(names.map((name) => [name, cellOf(given[name])])));
  fill(database, table, rows as never);
}

const inParts = <T>(all: readonly T[]): T[][] =>
  Array.from({ length: Math.ceil(all.length / 100) }, (_, at) => all.slice(at * 100, at * 100 + 100));

function writtenOf(condition: Plain): string {
  switch (condition.kind) {
    case 'all':
      return `(${condition.of.map(writtenOf).join(' AND ')})`;
    case 'any':
      return `(${condition.of.map(writtenOf).join(' OR ')})`;
    case 'not':
      return `(NOT ${writtenOf(condition.of)})`;
    case 'constant':
      return condition.value ? '1' : '0';
    case 'leaf':
      return leafOf(condition);
  }
}

function leafOf({ fact, operator, value }: Extract<Plain, { readonly kind: 'leaf' }>): string {
  const text = (one: Value): string => (typeof one === 'string' ? `'${one}'` : String(Number(one)));
  const listed = (): string => `(${(value as readonly string[]).map(text).join(', ')})`;
  const has = (code: string): string => `instr(${fact}, ',${code},') > 0`;
  switch (operator) {
    case 'equal':
      return `(${fact} = ${text(value)})`;
    case 'notEqual':
      return `(${fact} <> ${text(value)})`;
    case 'in':
      return `(${fact} IN ${listed()})`;
    case 'notIn':
      return `(${fact} NOT IN ${listed()})`;
    case 'contains':
      return `(${has(value as string)})`;
    case 'doesNotContain':
      return `(NOT ${has(value as string)})`;
    case 'containsAny':
      return `(${(value as readonly string[]).map(has).join(' OR ')})`;
    case 'lessThan':
    case 'before':
      return `(${fact} < ${text(value)})`;
    case 'lessThanInclusive':
      return `(${fact} <= ${text(value)})`;
    case 'greaterThan':
    case 'after':
      return `(${fact} > ${text(value)})`;
    case 'greaterThanInclusive':
      return `(${fact} >= ${text(value)})`;
    case 'recorded':
      return `(${fact} IS NOT NULL)`;
    case 'notRecorded':
      return `(${fact} IS NULL)`;
  }
}
