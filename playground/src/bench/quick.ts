import type { AmendmentDocument } from '@dwellset/authoring';
import type { CellValue, Constant, Release, Rule, Table } from '@dwellset/core';
import { isPlan, type Judge, planOf } from './judge.ts';

type Values = Readonly<Record<string, Constant | CellValue>>;

function withCells(table: Table, values: Values): Table {
  const own = Object.entries(values).filter(([path]) => path.startsWith(`${table.id}/`));
  if (own.length === 0) return table;
  const rows: Record<string, Table['rows'][string]> = { ...table.rows };
  for (const [path, value] of own) {
    const [, row = '', column = ''] = path.split('/');
    rows[row] = { ...rows[row], [column]: { ...rows[row]?.[column], value: value as CellValue } };
  }
  return { ...table, rows };
}

const withoutWords = ({ advice: _, ...rule }: Rule): Rule => rule;

/**
 * A judge of one set where nothing but local choices is changed: the published release with other values in it. It
 * answers while the amendment is still being built and checked; that one has the last word.
 */
export function quickJudge(
  set: string,
  published: readonly Release[],
  { amends }: AmendmentDocument,
): Judge | undefined {
  const read = new Set(published.map(({ id }) => id));
  const changes = amends.flatMap(({ set: of, changes }) => changes.map((change) => ({ of, change })));
  if (changes.some(({ of, change }) => read.has(of) && !('set' in change))) return undefined;
  const values: Values = Object.assign(
    {},
    ...changes.map(({ change }) => ('set' in change ? change.set : {})),
  );
  // What it reads is changed in the same way, so the pins of the published text no longer fit. How a rule ends rests
  // on no evidence, and half of the work would be to take its digest.
  const patched = published.map(
    ({ reads: _, ...release }): Release => ({
      ...release,
      evidence: [],
      sources: [],
      rules: release.rules.map(withoutWords),
      parameters: release.parameters.map((one) =>
        one.id in values ? { ...one, value: values[one.id] as Constant } : one,
      ),
      tables: release.tables.map((table) => withCells(table, values)),
    }),
  );
  const plan = planOf(patched);
  const rules = published.find(({ id }) => id === set)?.rules.map(({ id }) => id);
  return isPlan(plan) && rules ? { set, plan, rules } : undefined;
}
