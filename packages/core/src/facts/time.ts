// The date library function by function, so that a bundle carries only these few.
import { fromEpochMilliseconds, toZonedDateTimeISO } from 'temporal-polyfill/fns/Instant';
import { create, toZonedDateTime } from 'temporal-polyfill/fns/PlainDateTime';
import { offsetNanoseconds } from 'temporal-polyfill/fns/ZonedDateTime';

import { readDay, readInstant, readLastDay } from './civil.ts';

const MS_PER_DAY = 86_400_000;
const MS_PER_MINUTE = 60_000;

/** Milliseconds of the time units a duration fact may have (UCUM); a day is 24 hours. */
export const MS_PER_UNIT: Readonly<Record<string, number>> = {
  s: 1000,
  min: 60_000,
  h: 3_600_000,
  d: MS_PER_DAY,
  wk: 7 * MS_PER_DAY,
};

export const TIME_UNITS: readonly string[] = Object.keys(MS_PER_UNIT);

const DURATION = /^P(?:(\d{1,5})D)?(?:T(?:(\d{1,5})H)?(?:(\d{1,5})M)?)?$/;

const attempt = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch {
    return undefined;
  }
};

/** The instant at which a zone's clock shows a time, given in ms as if the clock stood at UTC. */
function atLocalClock(local: number, zone: string): number {
  const shown = new Date(local);
  const time = create(
    shown.getUTCFullYear(),
    shown.getUTCMonth() + 1,
    shown.getUTCDate(),
    shown.getUTCHours(),
    shown.getUTCMinutes(),
    shown.getUTCSeconds(),
    shown.getUTCMilliseconds(),
  );
  return toZonedDateTime(time, zone).epochMilliseconds;
}

/** An instant with its offset, in ms since 1970; without an offset it is no instant and gives nothing. */
export const parseInstant = (text: string): number | undefined => readInstant(text);

/** A local day in days since 1970-01-01; `YYYY-MM` only where the fact says which day of the month it means. */
export const parseDay = (text: string, monthMeans?: 'last-day'): number | undefined =>
  readDay(text) ?? (monthMeans === 'last-day' ? readLastDay(text) : undefined);

/** ISO 8601 duration of days, hours and minutes in ms; a day is 24 hours. */
export function parseDuration(text: string): number | undefined {
  const match = DURATION.exec(text);
  if (!match || text === 'P' || text.endsWith('T')) return undefined;
  const [days, hours, minutes] = match.slice(1).map((part) => Number(part ?? 0)) as [number, number, number];
  return days * MS_PER_DAY + hours * 3_600_000 + minutes * 60_000;
}

const offsetAt = (instant: number, zone: string): number =>
  offsetNanoseconds(toZonedDateTimeISO(fromEpochMilliseconds(instant), zone)) / 1_000_000;

/** Offsets (ms) of the days of UTC on which a zone's clock does not jump, kept: asking the date library is slow. */
class ZoneDays {
  private readonly known = new Map<number, number | undefined>();
  private readonly zone: string;

  constructor(zone: string) {
    this.zone = zone;
  }

  offset(instant: number): number {
    const day = Math.floor(instant / MS_PER_DAY);
    if (!this.known.has(day)) this.known.set(day, this.steady(day));
    return this.known.get(day) ?? offsetAt(instant, this.zone);
  }

  private steady(day: number): number | undefined {
    if (this.known.size >= MOST_DAYS) this.known.clear();
    const [first, last] = [
      offsetAt(day * MS_PER_DAY, this.zone),
      offsetAt((day + 1) * MS_PER_DAY - 1, this.zone),
    ];
    return first === last ? first : undefined;
  }
}

/** A memory of what never changes: a zone's offsets. Bounded, so that a long-running process does not grow. */
const MOST_DAYS = 4096;
const MOST_ZONES = 64;
const zones = new Map<string, ZoneDays | undefined>();

function daysOf(zone: string): ZoneDays | undefined {
  const known = zones.get(zone);
  if (known !== undefined || zones.has(zone)) return known;
  if (zones.size >= MOST_ZONES) zones.clear();
  const found = attempt(() => offsetAt(0, zone)) === undefined ? undefined : new ZoneDays(zone);
  zones.set(zone, found);
  return found;
}

export const isTimeZone = (zone: string): boolean => daysOf(zone) !== undefined;

/** What the local clock shows, as if it stood at UTC, in ms. */
const onLocalClock = (instant: number, zone: string): number => instant + daysOf(zone)!.offset(instant);

/** The local day on which an instant falls, in days since 1970-01-01. */
export const localDay = (instant: number, zone: string): number =>
  Math.floor(onLocalClock(instant, zone) / MS_PER_DAY);

/**
 * First instant of a local day; days are 23, 24 or 25 hours long where clocks change. Midnight is named outright:
 * left to find the start of a day without one, the date library looks at the clock.
 */
export function startOfDay(day: number, zone: string): number {
  const days = daysOf(zone)!;
  // Where the clock shows midnight both before and after the guess is read back, and it does not jump, that is it.
  const guess = day * MS_PER_DAY - days.offset(day * MS_PER_DAY);
  const around = [guess - MS_PER_DAY, guess, guess + MS_PER_DAY].map((instant) => days.offset(instant));
  if (around.every((offset) => offset === around[0])) return guess;
  return atLocalClock(day * MS_PER_DAY, zone);
}

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
  const local = onLocalClock(instant, zone);
  const inDay = local - Math.floor(local / MS_PER_DAY) * MS_PER_DAY;
  const hour = Math.floor(inDay / 3_600_000);
  const minute = Math.floor((inDay % 3_600_000) / MS_PER_MINUTE);
  return hour + minute / 60 + (inDay % MS_PER_MINUTE) / 1000 / 3600;
}

/** The instants in (from, to] at which the local clock shows an hour, or jumps. */
export function instantsOfHour(hours: readonly number[], from: number, to: number, zone: string): number[] {
  const found: number[] = [];
  for (let day = localDay(from, zone); day <= localDay(to, zone); day += 1) {
    found.push(...clockChange(startOfDay(day, zone), startOfDay(day + 1, zone), zone));
    for (const hour of hours) {
      if (hour < 0 || hour >= 24) continue;
      found.push(atLocalClock(day * MS_PER_DAY + Math.round(hour * 3_600_000), zone));
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

/** ISO 8601 in UTC; parts of a second only where there are any. */
export const formatInstant = (instant: number): string =>
  new Date(instant).toISOString().replace(instant % 1000 === 0 ? '.000Z' : /0*Z$/, 'Z');

/** `YYYY-MM-DD HH:MM` on the local clock. */
export const formatLocal = (instant: number, zone: string): string =>
  new Date(onLocalClock(instant, zone)).toISOString().replace(/T(\d\d:\d\d).*$/, ' $1');

export const formatDay = (day: number): string =>
  new Date(day * MS_PER_DAY).toISOString().replace(/T.*$/, '');
