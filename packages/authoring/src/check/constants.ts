import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { isDay, isInstant } from './dates.ts';
import { type Typed, unitOf } from './entries.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';
import { isMultiple } from './steps.ts';

type Judge = Pick<Context, 'find' | 'owner' | 'survey'>;

/** One constant against a type: its shape, its step, its limits, its code list, its calendar. */
export function checkConstant(at: Cursor, typed: Typed, name: string, context: Judge): void {
  switch (typed.type) {
    case 'boolean':
      if (typeof at.value !== 'boolean') reportShape(at, '`true` or `false`', name, context);
      return;
    case 'number':
      if (at.number === undefined || !Number.isFinite(at.number)) {
        reportShape(at, `a number in \`${unitOf(typed)}\``, name, context);
      } else checkNumber(at, at.number, typed, name, context);
      return;
    case 'code':
      if (at.text === undefined) reportShape(at, 'a code', name, context);
      else checkCode(at, at.text, typed.codes, name, context);
      return;
    case 'codes':
      if (!at.isList) reportShape(at, 'a list of codes', name, context);
      for (const item of at.items) checkConstant(item, { ...typed, type: 'code' }, name, context);
      return;
    case 'date':
      if (at.text === undefined || !isDay(at.text)) reportDate(at, 'a day as `YYYY-MM-DD`', name, context);
      return;
    case 'date-time':
      if (at.text === undefined || !isInstant(at.text)) {
        reportDate(at, 'an instant with its offset, as `YYYY-MM-DDThh:mm+hh:mm`', name, context);
      }
      return;
    case 'text':
      if (at.text === undefined) reportShape(at, 'a text', name, context);
  }
}

function checkNumber(
  at: Cursor,
  value: number,
  { step, limits }: Typed,
  name: string,
  { find, owner }: Judge,
): void {
  if (!isMultiple(value, step)) {
    const message = `${value} in ${owner} is no multiple of the step ${step} of \`${name}\``;
    find.report('step-mismatch', at, { message, expected: `a multiple of ${step}`, received: String(value) });
  } else if (limits && (value < limits[0] || value > limits[1])) {
    const message = `${value} in ${owner} lies outside the limits ${limits[0]} to ${limits[1]} of \`${name}\``;
    const expected = `${limits[0]} to ${limits[1]}`;
    find.report('constant-outside-limits', at, { message, expected, received: String(value) });
  }
}

/** A code against a list; a list that is not there is reported where it is named. */
export function checkCode(
  at: Cursor,
  code: string,
  listName: string | undefined,
  name: string,
  { find, owner, survey }: Judge,
  part?: 'key',
): void {
  const list = listName === undefined ? undefined : survey.lists.get(listName);
  if (list === undefined || list.words.has(skeleton(code))) return;
  find.report('code-not-permitted', at, {
    ...(part && { part }),
    message: `\`${code}\` in ${owner} is no code of \`${listName}\`, the list of \`${name}\``,
    expected: [...list.words.keys()].join(', '),
    received: code,
    ...didYouMean(code, list.words.keys()),
  });
}

function reportShape(at: Cursor, expected: string, name: string, { find, owner }: Judge): void {
  const message = `the value of \`${name}\` in ${owner} must be ${expected}`;
  find.report('wrong-shape', at, { message, expected, received: shown(at.value) });
}

function reportDate(at: Cursor, expected: string, name: string, { find, owner }: Judge): void {
  const message = `the value of \`${name}\` in ${owner} must be ${expected}`;
  find.report('bad-date', at, { message, expected, received: shown(at.value) });
}
