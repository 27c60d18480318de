import { TIME_UNITS } from '@dwellset/core';
import { type Context, factNamed, parameterNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import { described } from './entries.ts';

/** The stretch of time, or the last entries, that an aggregate looks at; `timing` is the kind of its list. */
export function checkWindow(window: Cursor, timing: string | undefined, context: Context): void {
  const { find, owner } = context;
  if (timing === 'things') {
    const message = `${owner} looks at a stretch of time, but the entries of its list are things and have none`;
    const expected = 'events or measured';
    find.report('window-not-fit', window, { part: 'key', message, expected, received: timing });
    return;
  }
  if (window.isObject && window.keys.length === 0) {
    const message = `the window of ${owner} says nothing`;
    find.report('window-not-fit', window, { message, expected: 'since, last, newest or until' });
  }
  checkSince(window.at('since'), context);
  const last = window.at('last');
  if (last.has('parameter')) checkLocalLength(last.at('parameter'), context);
  else if (last.exists) checkLength(last, context);
}

function checkSince(at: Cursor, context: Context): void {
  const fact = factNamed(at, context);
  if (fact?.type === undefined || fact.type === 'date-time') return;
  const message = `the window of ${context.owner} starts at \`${fact.id}\`, which is of type ${fact.type} and no instant`;
  const received = fact.type;
  context.find.report('window-not-fit', at, { message, expected: 'date-time', received });
}

function checkLength(last: Cursor, { find, owner }: Context): void {
  const unit = last.at('unit');
  const value = last.at('value');
  if (unit.text !== undefined && !TIME_UNITS.includes(unit.text)) {
    const message = `the window of ${owner} is \`${unit.text}\` long, which is no unit of time`;
    const received = unit.text;
    find.report('window-not-fit', unit, { message, expected: TIME_UNITS.join(', '), received });
  } else if (value.number !== undefined && value.number <= 0) {
    const message = `the window of ${owner} has no length`;
    find.report('window-not-fit', value, {
      message,
      expected: 'more than 0',
      received: String(value.number),
    });
  }
}

/** A local choice of a length is read in hours. */
function checkLocalLength(at: Cursor, context: Context): void {
  const parameter = parameterNamed(at, context);
  if (parameter?.type === undefined || (parameter.type === 'number' && parameter.unit === 'h')) return;
  const message = `the window of ${context.owner} is as long as \`${parameter.id}\`, which is ${described(parameter)}`;
  const received = described(parameter);
  context.find.report('parameter-not-fit', at, { message, expected: 'number in h', received });
}
