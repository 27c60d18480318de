import { Temporal } from 'temporal-polyfill';

const MS_PER_DAY = 86_400_000;

/** Milliseconds of the time units a duration fact may have (UCUM); a day is 24 hours. */
export const MS_PER_UNIT: Readonly<Record<string, number>> = {
  s: 1000,
  min: 60_000,
  h: 3_600_000,
  d: MS_PER_DAY,
  wk: 7 * MS_PER_DAY,
};

export const TIME_UNITS: readonly string[] = Object.keys(MS_PER_UNIT);

const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const MONTH = /^\d{4}-\d{2}$/;
const DURATION = /^P(?:(\d{1,5})D)?(?:T(?:(\d{1,5})H)?(?:(\d{1,5})M)?)?$/;

const attempt = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch {
    return undefined;
  }
};

/** An instant with its offset, in ms since 1970; without an offset it is no instant and gives nothing. */
export function parseInstant(text: string): number | undefined {
  if (!INSTANT.test(text)) return undefined;
  return attempt(() => Temporal.Instant.from(text).epochMilliseconds);
}

const dayOf = (date: Temporal.PlainDate): number =>
  date.toZonedDateTime('UTC').epochMilliseconds / MS_PER_DAY;
const plainDay = (day: number): Temporal.PlainDate =>
  Temporal.Instant.fromEpochMilliseconds(day * MS_PER_DAY)
    .toZonedDateTimeISO('UTC')
    .toPlainDate();

/** A local day in days since 1970-01-01; `YYYY-MM` only where the fact says which day of the month it means. */
export function parseDay(text: string, monthMeans?: 'last-day'): number | undefined {
  if (DAY.test(text)) return attempt(() => dayOf(Temporal.PlainDate.from(text)));
  if (MONTH.test(text) && monthMeans === 'last-day') {
    return attempt(() => {
      const month = Temporal.PlainYearMonth.from(text);
      return dayOf(month.toPlainDate({ day: month.daysInMonth }));
    });
  }
  return undefined;
}

/** ISO 8601 duration of days, hours and minutes in ms; a day is 24 hours. */
export function parseDuration(text: string): number | undefined {
  const match = DURATION.exec(text);
  if (!match || text === 'P' || text.endsWith('T')) return undefined;
  const [days, hours, minutes] = match.slice(1).map((part) => Number(part ?? 0)) as [number, number, number];
  return days * MS_PER_DAY + hours * 3_600_000 + minutes * 60_000;
}

export const isTimeZone = (zone: string): boolean =>
  attempt(() => Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone)) !== undefined;

/** The local day on which an instant falls, in days since 1970-01-01. */
export const localDay = (instant: number, zone: string): number =>
  dayOf(Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone).toPlainDate());

const MIDNIGHT = Temporal.PlainTime.from('00:00');

/**
 * First instant of a local day; days are 23, 24 or 25 hours long where clocks change. Midnight is named outright:
 * left to find the start of a day without one, the date library looks at the clock.
 */
export const startOfDay = (day: number, zone: string): number =>
  plainDay(day).toZonedDateTime({ timeZone: zone, plainTime: MIDNIGHT }).epochMilliseconds;

const offsetAt = (instant: number, zone: string): number =>
  Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone).offsetNanoseconds;

/** The instant within a day at which the local clock jumps, if it does. */
function clockChange(from: number, to: number, zone: string): number[] {
  if (offsetAt(from, zone) === offsetAt(to, zone)) return [];
  let [before, after] = [from, to];
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2);
    if (offsetAt(middle, zone) === offsetAt(from, zone)) before = middle;
    else after = middle;
  }
  return [after];
}

/** Hours of the local clock, 0 up to 24, e.g. 14.5 at half past two. */
export function localHour(instant: number, zone: string): number {
  const { hour, minute, second, millisecond } =
    Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);
  return hour + minute / 60 + (second + millisecond / 1000) / 3600;
}

/** The instants in (from, to] at which the local clock shows an hour, or jumps. */
export function instantsOfHour(hours: readonly number[], from: number, to: number, zone: string): number[] {
  const found: number[] = [];
  for (let day = localDay(from, zone); day <= localDay(to, zone); day += 1) {
    found.push(...clockChange(startOfDay(day, zone), startOfDay(day + 1, zone), zone));
    for (const hour of hours) {
      if (hour < 0 || hour >= 24) continue;
      const time = Temporal.PlainTime.from('00:00').add({ milliseconds: Math.round(hour * 3_600_000) });
      found.push(plainDay(day).toZonedDateTime({ timeZone: zone, plainTime: time }).epochMilliseconds);
    }
  }
  return found.filter((instant) => instant > from && instant <= to);
}

/** Local midnights in (from, to]. */
export function midnights(from: number, to: number, zone: string): number[] {
  const found: number[] = [];
  for (let day = localDay(from, zone) + 1; startOfDay(day, zone) <= to; day += 1)
    found.push(startOfDay(day, zone));
  return found;
}

export const formatInstant = (instant: number): string =>
  Temporal.Instant.fromEpochMilliseconds(instant).toString();

/** `YYYY-MM-DD HH:MM` on the local clock. */
export function formatLocal(instant: number, zone: string): string {
  const local = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);
  return `${local.toPlainDate().toString()} ${local.toPlainTime().toString({ smallestUnit: 'minute' })}`;
}

export const formatDay = (day: number): string => plainDay(day).toString();
