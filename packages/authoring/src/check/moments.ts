import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { isDay, isInstant, isTimeZone } from './dates.ts';
import type { Findings } from './findings.ts';

/** A day or an instant that has the right shape but is in no calendar. */
export function reportBadDate(at: Cursor, owner: string, find: Findings): void {
  const message = `\`${at.text}\` in ${owner} does not exist, or is no ISO 8601 date`;
  find.report('bad-date', at, { message, received: at.text });
}

export function checkDay(at: Cursor, { find, owner }: Pick<Context, 'find' | 'owner'>): void {
  if (at.text !== undefined && !isDay(at.text)) reportBadDate(at, owner, find);
}

export function checkInstant(at: Cursor, { find, owner }: Pick<Context, 'find' | 'owner'>): void {
  if (at.text !== undefined && !isInstant(at.text)) reportBadDate(at, owner, find);
}

function checkTimeZone(at: Cursor, { find, owner }: Pick<Context, 'find' | 'owner'>): void {
  if (at.text === undefined || isTimeZone(at.text)) return;
  const message = `\`${at.text}\` in ${owner} is no time zone`;
  find.report('timezone', at, {
    message,
    expected: 'an IANA name such as `Europe/London`',
    received: at.text,
  });
}

/** The moment of a case and everything else in it that is an instant. */
export function checkMoments(entry: Cursor, context: Pick<Context, 'find' | 'owner'>): void {
  checkInstant(entry.at('asOf'), context);
  checkInstant(entry.at('recordedAt'), context);
  checkTimeZone(entry.at('timeZone'), context);
  for (const response of entry.at('responses').items) checkInstant(response.at('until'), context);
}
