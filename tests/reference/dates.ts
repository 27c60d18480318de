import { DateTime, Duration } from 'luxon';

const DAY = 86_400_000;
const DATE = /^\d{4}-\d{2}-\d{2}$/;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;

/** Random cases name the same few instants again and again, and calendars are slow. */
function remembered<In extends readonly unknown[], Out>(
  compute: (...input: In) => Out,
): (...input: In) => Out {
  const answers = new Map<string, Out>();
  return (...input) => {
    const key = input.join(' ');
    if (!answers.has(key)) {
      if (answers.size > 10_000) answers.clear();
      answers.set(key, compute(...input));
    }
    return answers.get(key) as Out;
  };
}

/** Milliseconds since 1970, or nothing where the text is not an instant with its offset. */
export const instant = remembered((text: string): number | undefined => {
  const read = DateTime.fromISO(text, { zone: 'utc' });
  return INSTANT.test(text) && read.isValid ? read.toMillis() : undefined;
});

/** Days since 1970-01-01 of a calendar day, whatever the zone. */
export const day = remembered((text: string): number | undefined => {
  const read = DateTime.fromISO(text, { zone: 'utc' });
  return DATE.test(text) && read.isValid ? read.toMillis() / DAY : undefined;
});

export function lastDayOfMonth(text: string): number | undefined {
  const read = DateTime.fromISO(`${text}-01`, { zone: 'utc' });
  if (!/^\d{4}-\d{2}$/.test(text) || !read.isValid) return undefined;
  return read.endOf('month').startOf('day').toMillis() / DAY;
}

/** The calendar day that an instant falls on in the zone. */
export const localDay = remembered((ms: number, zone: string): number => {
  if (!Number.isFinite(ms)) return ms;
  const here = DateTime.fromMillis(ms, { zone });
  return DateTime.utc(here.year, here.month, here.day).toMillis() / DAY;
});

/** Hours on the clock on the wall. */
export const localHour = remembered((ms: number, zone: string): number => {
  const here = DateTime.fromMillis(ms, { zone });
  return here.hour + (here.minute * 60_000 + here.second * 1000 + here.millisecond) / 3_600_000;
});

/** The first instant of a local day: not every day begins at 00:00, and some see 00:00 twice. */
export const startOfDay = remembered((dayNumber: number, zone: string): number => {
  const date = DateTime.fromMillis(dayNumber * DAY, { zone: 'utc' });
  let start = DateTime.fromObject({ year: date.year, month: date.month, day: date.day }, { zone }).toMillis();
  while (localDay(start - 1, zone) >= dayNumber) start -= 30 * 60_000;
  while (localDay(start, zone) < dayNumber) start += 30 * 60_000;
  return start;
});

export const durationMs = remembered((text: string): number => Duration.fromISO(text).as('milliseconds'));

export const UNIT_MS: Readonly<Record<string, number>> = { min: 60_000, h: 3_600_000, d: DAY };
