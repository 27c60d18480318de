import {
  type Case,
  type CodeList,
  compile,
  derivationSql,
  evaluate,
  type Fact,
  hoursRead,
  kindOf,
  type Release,
  type SqlNames,
  sqlPrefix,
} from '@dwellset/core';
import type { Database } from 'sql.js';
import { type Columns, codesIn, columnsOf, momentColumns } from './columns.ts';
import { compute, fill } from './database.ts';

export function namesOf(release: Release): SqlNames {
  const hours = hoursRead(release.facts);
  const found = <T>(value: T | undefined, id: string): T => {
    if (value === undefined) throw new Error(`no ${id}`);
    return value;
  };
  return {
    fact: (id) =>
      found(
        release.facts.find((fact) => fact.id === id),
        id,
      ),
    parameter: (id) =>
      found(
        release.parameters.find((one) => one.id === id),
        id,
      ).value,
    table: (id) =>
      found(
        release.tables.find((one) => one.id === id),
        id,
      ),
    codes: (list) => codesIn(release.codes as Record<string, CodeList>, list),
    hourRead: (id) => hours.has(id),
  };
}

/** Derived facts in layers, each computed from supplied facts and the layers before it. */
const OF_LISTS = ['count', 'total', 'least', 'greatest', 'newest', 'longestRun'];

/** Entries of a list are no columns: what is read of them is given, as a supplied fact is. */
const isComputed = ({ from }: Fact): boolean =>
  from !== undefined && !OF_LISTS.includes(Object.keys(from)[0] ?? '');

function layersOf(facts: readonly Fact[]): Fact[][] {
  const layers: Fact[][] = [];
  const done = new Set(facts.filter((fact) => !isComputed(fact)).map((fact) => fact.id));
  let left = facts.filter(isComputed);
  while (left.length > 0) {
    const next = left.filter(
      ({ from }) =>
        from &&
        kindOf(from)
          .facts(from)
          .every((id) => done.has(id)),
    );
    if (next.length === 0) throw new Error('facts derived from themselves');
    for (const { id } of next) done.add(id);
    left = left.filter((fact) => !next.includes(fact));
    layers.push(next);
  }
  return layers;
}

interface Difference {
  readonly row: number;
  readonly column: string;
  readonly sql: unknown;
  readonly core: unknown;
}

/** Computes every derived fact of a release in SQL, each from columns that may themselves be computed. */
export function differences(
  database: Database,
  release: Release,
  cases: readonly Case[],
  kinds: Map<string, number>,
): Difference[] {
  const plan = compile([release], { allow: ['draft'] });
  const readings = cases.map((patient) => evaluate(plan, patient).readings);
  const columns = cases.map((patient, row) =>
    [...(readings[row]?.values() ?? [])].map(
      (reading) => [reading, columnsOf(reading, { codes: release.codes, zone: patient.timeZone })] as const,
    ),
  );
  fill(
    database,
    'step_0',
    cases.map((patient, row) =>
      Object.assign(
        momentColumns(Date.parse(patient.asOf), patient.timeZone),
        ...(columns[row] ?? []).flatMap(([{ fact }, cells]) => (isComputed(fact) ? [] : [cells])),
      ),
    ),
  );
  const names = namesOf(release);
  const found: Difference[] = [];
  const layers = layersOf(release.facts);
  layers.forEach((facts, step) => {
    const printed = Object.assign({}, ...facts.map((fact) => derivationSql(fact, names)));
    const rows = compute(database, `step_${step}`, `step_${step + 1}`, printed);
    for (const { from } of facts) {
      const kind = Object.keys(from ?? {})[0] ?? '';
      kinds.set(kind, (kinds.get(kind) ?? 0) + rows.length);
    }
    rows.forEach((sql, row) => {
      const read = (columns[row] ?? []).filter(([reading]) => facts.some(({ id }) => id === reading.fact.id));
      const hourless = read
        .filter(([{ fact }]) => !names.hourRead(fact.id))
        .map(([{ fact }]) => `${sqlPrefix(fact.id)}__hour`);
      found.push(...differing(row, sql, Object.assign({}, ...read.map(([, cells]) => cells)), hourless));
    });
  });
  for (let step = 0; step <= layers.length; step++) database.run(`DROP TABLE step_${step}`);
  return found;
}

function differing(row: number, sql: Columns, core: Columns, hourless: readonly string[]): Difference[] {
  const wanted = Object.keys(core).filter((name) => !hourless.includes(name));
  return [...new Set([...wanted, ...Object.keys(sql)])].flatMap((column) =>
    same(sql[column], core[column]) ? [] : [{ row, column, sql: sql[column], core: core[column] }],
  );
}

/** The sign of a zero says nothing. */
const same = (a: unknown, b: unknown): boolean => a === b || (a === 0 && b === 0);
