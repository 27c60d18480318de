import type { Fact } from '../../release/fact.ts';
import type { DerivationOf, ScalarKind } from './kinds.ts';
import { firstRecorded, highest, lowest } from './sql/choosing.ts';
import { band, conclusion, countCodes, lookup } from './sql/coding.ts';
import { finish } from './sql/finish.ts';
import { calendarDays, difference, elapsed, localHour, product, ratio, sum } from './sql/numbers.ts';
import type { Printed, SqlNames } from './sql/print.ts';

export { conclusionColumn, type SqlNames, sqlPrefix } from './sql/print.ts';

type Print<N extends ScalarKind> = (derivation: DerivationOf<N>, fact: Fact, names: SqlNames) => Printed;

/**
 * One entry a kind: a kind without its SQL does not compile. What looks at a list has none: its items are rows of
 * their own, and its columns are supplied like those of a fact that is not derived.
 */
const PRINT: { readonly [N in ScalarKind]: Print<N> } = {
  elapsed,
  calendarDays,
  localHour,
  difference,
  sum,
  product,
  ratio,
  lowest,
  highest,
  firstRecorded,
  lookup,
  band,
  countCodes,
  conclusion,
};

/**
 * SQL expressions for the columns of a derived fact from the columns of its operands, in SQLite's dialect.
 *
 * Columns of a fact, after its prefix: `low` and `high` of a number, an instant (ms) or a day; `day_low`, `day_high`
 * and, where {@link hoursRead} names it, `hour` of an instant on the local clock (an open end is an open day, the
 * hour NULL unless the instant is exact); `may`, the mask of possible codes of a code or of yes and no; `yes` and
 * `open`, the masks of answered codes; `recorded` (0 false, 2 unknown, 3 true) and `none` (0, 1) of every fact. Text
 * has no column of its own. What a rule set concludes stands in the columns of {@link conclusionColumn}. Where a case
 * also supplies the fact itself, that value is the caller's to weigh.
 */
export function derivationSql(fact: Fact, names: SqlNames): Readonly<Record<string, string>> {
  if (fact.from === undefined) throw new TypeError(`${fact.id} is not derived`);
  const print = PRINT[Object.keys(fact.from)[0] as ScalarKind] as Print<ScalarKind> | undefined;
  if (print === undefined) throw new TypeError(`${fact.id} looks at a list, whose items are no columns`);
  return finish(fact, print(fact.from as DerivationOf<ScalarKind>, fact, names), names);
}

/** Instants whose hour on the local clock is read, by `localHour` or through a choice among instants. */
export function hoursRead(facts: readonly Fact[]): ReadonlySet<string> {
  const byId = new Map(facts.map((fact) => [fact.id, fact]));
  const found = new Set<string>();
  const add = (id: string): void => {
    if (found.has(id)) return;
    found.add(id);
    const from = byId.get(id)?.from ?? {};
    for (const operands of Object.values(from)) if (Array.isArray(operands)) operands.forEach(add);
  };
  for (const { from } of facts) if (from && 'localHour' in from) add(from.localHour.at);
  return found;
}
