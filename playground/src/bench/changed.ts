import type { Change } from '@dwellset/authoring';
import type { CellValue, Constant, Parameter, Release, Rule, Table } from '@dwellset/core';

/** Path of a local choice → the value that the author gives it. */
export type Values = ReadonlyMap<string, Constant | CellValue>;

/** Whether a value lies beyond what a hospital may choose. */
export const isOutside = ({ id, range }: Parameter, values: Values): boolean => {
  const value = values.get(id);
  return range !== undefined && typeof value === 'number' && (value < range[0] || value > range[1]);
};

interface Changed {
  readonly rules: readonly Rule[];
  /** Those that are others than published. */
  readonly touched: ReadonlySet<string>;
}

/** The rules of a set with an author's changes; words and urgency are no matter of how a rule ends. */
export function changeRules(published: readonly Rule[], changes: readonly Change[]): Changed | undefined {
  const rules = [...published];
  const touched = new Set<string>();
  for (const change of changes) {
    if ('add' in change) {
      const { add, after, reason } = change;
      const before = after === undefined ? rules.length - 1 : rules.findIndex(({ id }) => id === after);
      if (rules.some(({ id }) => id === add.id)) return undefined;
      rules.splice(before + 1, 0, { ...(add as Rule), local: { change: 'added', reason } });
      touched.add(add.id);
    } else if ('replace' in change || 'switchOff' in change) {
      const id = 'replace' in change ? change.replace.id : change.switchOff;
      const at = rules.findIndex((rule) => rule.id === id);
      const rule = rules[at];
      // Refused by the build, with the reason.
      if (rule === undefined || rule.locked) return undefined;
      const { reason } = change;
      rules[at] =
        'replace' in change
          ? { ...(change.replace as Rule), local: { change: 'replaced', reason } }
          : { ...rule, local: { change: 'switched-off', reason } };
      touched.add(id);
    }
  }
  return { rules, touched };
}

/** A release with other local choices, the cells of its tables among them. */
export function withValues(release: Release, values: Values): Release {
  const parameters = release.parameters.map((one) =>
    values.has(one.id) ? { ...one, value: values.get(one.id) as Constant } : one,
  );
  return { ...release, parameters, tables: release.tables.map((table) => withCells(table, values)) };
}

function withCells(table: Table, values: Values): Table {
  const own = [...values].filter(([path]) => path.startsWith(`${table.id}/`));
  if (own.length === 0) return table;
  const rows: Record<string, Table['rows'][string]> = { ...table.rows };
  for (const [path, value] of own) {
    const [, row = '', column = ''] = path.split('/');
    rows[row] = { ...rows[row], [column]: { ...rows[row]?.[column], value: value as CellValue } };
  }
  return { ...table, rows };
}
