import type { Fact } from '../../../release/fact.ts';
import { kindOf } from '../kinds.ts';
import {
  all,
  any,
  bitsOf,
  column,
  type Ends,
  either,
  firstOf,
  greatest,
  least,
  literal,
  maskOf,
  type Printed,
  rounded,
  type SqlNames,
  sqlPrefix,
} from './print.ts';

/** The columns of a derived fact from what its kind printed: rounded to the step, clipped to the limits. */
export function finish(fact: Fact, printed: Printed, names: SqlNames): Readonly<Record<string, string>> {
  const none = noneOf(fact, printed);
  const clipped = fact.type === 'number' && printed.ends ? clip(fact, printed.ends) : undefined;
  const columns: Record<string, string> = clipped
    ? {
        low: firstOf(noneOr(none, literal(clipped.from)), clipped.low),
        high: firstOf(noneOr(none, literal(clipped.to)), clipped.high),
      }
    : valueColumns(fact, { ...printed, ...(none ? { none } : {}) }, names);
  const impossible = clipped?.impossible;
  columns.recorded = firstOf(
    [...noneOr(none, '0'), ...(impossible ? [[impossible, '2'] as const] : [])],
    printed.recorded,
  );
  columns.none = none ? either(none, '1', '0') : '0';
  const prefix = sqlPrefix(fact.id);
  return Object.fromEntries(Object.entries(columns).map(([part, sql]) => [`${prefix}__${part}`, sql]));
}

/** Whatever the kind: from operands that all have no value follows none. */
function noneOf({ from }: Fact, { none }: Printed): string | undefined {
  const operands = from ? kindOf(from).facts(from) : [];
  const empty = operands.map((id) => `${column(id, 'none')} = 1`);
  if (empty.length === 0) return none;
  return none ? any([none, all(empty)]) : all(empty);
}

const noneOr = (none: string | undefined, value: string): (readonly [string, string])[] =>
  none ? [[none, value]] : [];

/** A number wholly outside its limits is impossible and may be anything again. */
function clip(fact: Fact, ends: Ends) {
  const [from, to] = fact.limits ?? [-Infinity, Infinity];
  const [low, high] = [rounded(ends.low, fact.step), rounded(ends.high, fact.step)];
  const outside = [
    ...(from === -Infinity ? [] : [`${high} < ${literal(from)}`]),
    ...(to === Infinity ? [] : [`${low} > ${literal(to)}`]),
  ];
  if (outside.length === 0) return { from, to, low, high, impossible: undefined };
  const impossible = any(outside);
  return {
    from,
    to,
    low: either(impossible, literal(from), raised(low, from)),
    high: either(impossible, literal(to), lowered(high, to)),
    impossible,
  };
}

const raised = (value: string, to: number): string =>
  to === -Infinity ? value : greatest([value, literal(to)]);
const lowered = (value: string, to: number): string =>
  to === Infinity ? value : least([value, literal(to)]);

/** Columns of everything but a number; nothing here has a step, and no operand lies after the moment of the case. */
function valueColumns(fact: Fact, printed: Printed, names: SqlNames): Record<string, string> {
  const orElse = (value: string, whole: string): string => firstOf(noneOr(printed.none, whole), value);
  const { ends, days, hour, may, answers } = printed;
  const columns: Record<string, string> = {};
  if (ends) {
    columns.low = orElse(ends.low, literal(-Infinity));
    columns.high = orElse(ends.high, fact.type === 'date' ? literal(Infinity) : column('asOf', 'high'));
  }
  if (days) {
    columns.day_low = orElse(days.low, literal(-Infinity));
    columns.day_high = orElse(days.high, column('asOf', 'day_high'));
  }
  if (hour) columns.hour = orElse(hour, 'NULL');
  if (may || answers) {
    const full = String(maskOf(bitsOf(fact, names)));
    if (may) columns.may = orElse(may, full);
    if (answers) {
      columns.yes = orElse(answers.yes, '0');
      columns.open = orElse(answers.open, full);
    }
  }
  return columns;
}
