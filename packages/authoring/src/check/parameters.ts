import { checkConstant } from './constants.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { ParameterEntry, Typed } from './entries.ts';
import { checkEvidenceIds } from './evidence.ts';
import { shown } from './shapes.ts';
import { checkOrder, checkTypeKeys } from './typeKeys.ts';

/** One named local choice: its default and positions fit its type and range and are published, or say they are local. */
export function checkParameter(parameter: ParameterEntry, outer: Context): void {
  const { entry } = parameter;
  const context = { ...outer, owner: `parameter \`${parameter.id}\`` };
  checkTypeKeys(entry, context);
  checkOrder(entry.at('range'), context.owner, context);
  for (const end of entry.at('range').items) checkConstant(end, parameter, parameter.id, context);
  checkChoice(entry.at('default'), parameter, parameter.range, parameter.id, context);
  const positions = entry.at('positions');
  for (const position of positions.items) {
    checkChoice(position.at('value'), parameter, parameter.range, parameter.id, context);
    checkEvidenceIds(position.at('evidence'), context);
  }
  checkPublished(entry, context);
}

/** A value of a local choice: type, step, code list, and the range that a hospital may move in. */
export function checkChoice(
  at: Cursor,
  typed: Typed,
  range: readonly [number, number] | undefined,
  name: string,
  context: Context,
): void {
  if (!at.exists) return;
  checkConstant(at, typed, name, context);
  const value = at.number;
  if (typed.type !== 'number' || value === undefined || !range || (value >= range[0] && value <= range[1]))
    return;
  const message = `${value} lies outside the range ${range[0]} to ${range[1]} of \`${name}\``;
  context.find.report('parameter-out-of-range', at, {
    message,
    expected: `${range[0]} to ${range[1]}`,
    received: String(value),
  });
}

/** Whether a value is one that a source stands for: a code by name, a number within the span of the positions. */
export function isPublished(value: unknown, positions: readonly unknown[]): boolean {
  if (typeof value !== 'number') return positions.some((p) => JSON.stringify(p) === JSON.stringify(value));
  const numbers = positions.filter((position) => typeof position === 'number');
  return value >= Math.min(...numbers) && value <= Math.max(...numbers);
}

function checkPublished(entry: Cursor, { find, owner }: Context): void {
  const positions = entry.at('positions');
  if (entry.at('local').value === true || find.isMisspelt(entry, 'local') || !positions.isList) return;
  if (positions.items.length === 0) {
    const message = `${owner} has no published position and is not marked \`local\``;
    find.report('parameter-without-position', positions, {
      message,
      hint: 'add a position, or `"local": true`',
    });
    return;
  }
  const value = entry.at('default');
  const published = positions.items.map((position) => position.at('value').value);
  if (!value.exists || isPublished(value.value, published)) return;
  const message = `the default ${shown(value.value)} of ${owner} is none of its published positions`;
  find.report('parameter-off-positions', value, { message, expected: published.map(shown).join(', ') });
}
