/**
 * Days and instants of the ISO 8601 calendar as plain arithmetic: a case may hold dozens of them, and going through
 * the date library for each would cost more than the whole evaluation. Held to the date library by a property test.
 */
const MS_PER_DAY = 86_400_000;
const MS_PER_MINUTE = 60_000;

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?(?:Z|[+-]\d{2}:\d{2})$/;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const MONTH = /^\d{4}-\d{2}$/;

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

const daysIn = (year: number, month: number): number =>
  month === 2 && isLeap(year) ? 29 : (MONTH_DAYS[month - 1] ?? 0);

/** The number that some digits of a text write; the text is not cut up for them. */
function digits(text: string, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at += 1) value = value * 10 + text.charCodeAt(at) - 48;
  return value;
}

/** Days since 1970-01-01, or nothing where the calendar has no such day. */
function dayNumber(year: number, month: number, day: number): number | undefined {
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return undefined;
  // `Date.UTC` takes years below 100 for years of the 1900s; 400 years are a whole number of days.
  return Date.UTC(year + 400, month - 1, day) / MS_PER_DAY - 146_097;
}

/** `YYYY-MM-DD` in days since 1970-01-01. */
export function readDay(text: string): number | undefined {
  if (!DAY.test(text)) return undefined;
  return dayNumber(digits(text, 0, 4), digits(text, 5, 7), digits(text, 8, 10));
}

/** The last day of `YYYY-MM` in days since 1970-01-01. */
export function readLastDay(text: string): number | undefined {
  if (!MONTH.test(text)) return undefined;
  const [year, month] = [digits(text, 0, 4), digits(text, 5, 7)];
  return dayNumber(year, month, daysIn(year, month));
}

/** An instant with its offset, in ms since 1970; a leap second counts as the second before it. */
export function readInstant(text: string): number | undefined {
  if (!INSTANT.test(text)) return undefined;
  const day = dayNumber(digits(text, 0, 4), digits(text, 5, 7), digits(text, 8, 10));
  const [hour, minute] = [digits(text, 11, 13), digits(text, 14, 16)];
  const second = text[16] === ':' ? digits(text, 17, 19) : 0;
  const end = text.endsWith('Z') ? text.length - 1 : text.length - 6;
  const [offsetHour, offsetMinute] = text.endsWith('Z')
    ? [0, 0]
    : [digits(text, end + 1, end + 3), digits(text, end + 4, end + 6)];
  if (day === undefined || hour > 23 || minute > 59 || second > 60 || offsetHour > 23 || offsetMinute > 59) {
    return undefined;
  }
  const offset = (text[end] === '-' ? -1 : 1) * (offsetHour * 60 + offsetMinute);
  const time =
    (hour * 60 + minute - offset) * MS_PER_MINUTE +
    Math.min(second, 59) * 1000 +
    (text[19] === '.' ? digits(text, 20, end) * 10 ** (23 - end) : 0);
  return day * MS_PER_DAY + time;
}
