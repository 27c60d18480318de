import { itemDerivationSchemas } from '../documents/list.ts';
import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportLoops } from './cycles.ts';
import { kindIn } from './derivationKind.ts';
import { checkArithmetic, checkTime } from './derivationOperands.ts';
import { type FactEntry, readFact } from './entries.ts';
import { didYouMean } from './nearest.ts';
import { operandsOf } from './references.ts';
import { checkBands, checkTypeKeys } from './typeKeys.ts';

export type Fields = ReadonlyMap<string, FactEntry>;

/** The fields of a list as facts of their own; the id of a field is its key. */
export const fieldsOf = (entry: Cursor): Fields =>
  new Map(entry.at('item').entries.map(([id, field]) => [skeleton(id), { ...readFact(field), id }] as const));

/** The field that a text names; says so where there is none. */
export function fieldNamed(at: Cursor, fields: Fields, { find, owner }: Context): FactEntry | undefined {
  if (at.text === undefined) return undefined;
  const field = fields.get(skeleton(at.text));
  if (field !== undefined) return field;
  const names = [...fields.values()].map(({ id }) => id);
  find.report('unknown-field', at, {
    message: `the entries that ${owner} reads have no field \`${at.text}\``,
    expected: names.join(', '),
    received: at.text,
    ...didYouMean(at.text, names),
  });
  return undefined;
}

/** One field of a list: keys that fit its type, and how it follows from other fields of the same entry. */
export function checkField(field: FactEntry, fields: Fields, list: Context): void {
  const context = { ...list, owner: `field \`${field.id}\` of ${list.owner}`, facts: fields };
  checkTypeKeys(field.entry, context);
  checkBands(field.entry, context);
  const from = field.entry.at('from');
  const kind = from.exists ? kindIn(from, itemDerivationSchemas, undefined, context) : undefined;
  if (kind === undefined) return;
  for (const operand of operandsOf(from)) fieldNamed(operand, fields, context);
  if (kind === 'elapsed') checkMoment(from.at(kind), context);
  if (kind === 'elapsed' || kind === 'calendarDays') checkTime(kind, from.at(kind), field, context);
  else checkArithmetic(kind, from.at(kind), field, context);
}

/** A window says how long ago an entry may be; a field that grew by the second would be another one at each look. */
function checkMoment(body: Cursor, { find, owner }: Context): void {
  for (const [, operand] of body.entries) {
    if (operand.text !== 'asOf') continue;
    const message = `${owner} is the time up to the moment of the case, which changes while nothing is charted`;
    const hint = 'use `calendarDays`, or give the facts that read the list a window of time (`within`)';
    find.report('moment-in-entry', operand, { message, hint });
  }
}

export function checkFieldCycles(fields: Fields, context: Context): void {
  const edges = new Map(
    [...fields].map(([id, { entry }]) => {
      const operands = operandsOf(entry.at('from'));
      return [id, operands.map((at) => ({ to: skeleton(at.text!), at }))] as const;
    }),
  );
  reportLoops(edges, 'derivation-cycle', `fields of ${context.owner}`, context);
}
