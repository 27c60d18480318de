const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const INSTANT = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.\d{1,3})?)?(?:Z|[+-](\d{2}):(\d{2}))$/;

/** A calendar day that exists. */
export function isDay(text: string): boolean {
  const [, year, month, day] = (DAY.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return false;
  const date = new Date(Date.UTC(2000, month - 1, day));
  date.setUTCFullYear(year, month - 1, day);
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}

/** An instant that exists, with its offset. */
export function isInstant(text: string): boolean {
  const [, day = '', hour, minute, second = '0', offsetHour = '0', offsetMinute = '0'] =
    INSTANT.exec(text) ?? [];
  return (
    isDay(day) &&
    Number(hour) < 24 &&
    Number(minute) < 60 &&
    Number(second) < 60 &&
    Number(offsetHour) < 24 &&
    Number(offsetMinute) < 60
  );
}

/** An IANA name such as `Europe/London` or `UTC`; an offset is none, for it does not know when clocks change. */
export function isTimeZone(text: string): boolean {
  const known = zones.get(text);
  if (known !== undefined) return known;
  if (zones.size >= MOST_ZONES) zones.clear();
  const found = isKnownZone(text);
  zones.set(text, found);
  return found;
}

/** Asking for a zone is slow, and many cases name the same. */
const zones = new Map<string, boolean>();
const MOST_ZONES = 64;

function isKnownZone(text: string): boolean {
  if (!/^[A-Za-z]/.test(text)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: text });
    return true;
  } catch {
    return false;
  }
}
