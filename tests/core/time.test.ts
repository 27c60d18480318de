import fc from 'fast-check';
import { DateTime } from 'luxon';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
  formatDay,
  formatInstant,
  formatLocal,
  isTimeZone,
  localDay,
  localHour,
  parseDay,
  parseInstant,
  startOfDay,
} from '../../packages/core/src/facts/time.ts';

const MS_PER_DAY = 86_400_000;

/** Zones with whole, half and quarter hours, both hemispheres, clocks that jump at midnight, and a lost day. */
const ZONES = [
  'UTC',
  'Europe/Copenhagen',
  'America/New_York',
  'America/St_Johns',
  'Asia/Kathmandu',
  'Asia/Beirut',
  'Africa/Cairo',
  'Australia/Lord_Howe',
  'America/Santiago',
  'Pacific/Apia',
  'Pacific/Chatham',
  'Africa/Casablanca',
];

const attempt = <T>(read: () => T): T | undefined => {
  try {
    return read();
  } catch {
    return undefined;
  }
};

const two = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map((value) => String(value).padStart(2, '0'));
const day = fc
  .tuple(fc.integer({ min: 0, max: 9999 }), two(0, 13), two(0, 32))
  .map(([year, month, date]) => `${String(year).padStart(4, '0')}-${month}-${date}`);
const time = fc
  .tuple(two(0, 24), two(0, 60), fc.option(fc.tuple(two(0, 61), fc.option(fc.stringMatching(/^\d{1,3}$/)))))
  .map(([hour, minute, rest]) => {
    const seconds = rest === null ? '' : `:${rest[0]}${rest[1] === null ? '' : `.${rest[1]}`}`;
    return `${hour}:${minute}${seconds}`;
  });
const offset = fc.oneof(
  fc.constant('Z'),
  fc.tuple(fc.constantFrom('+', '-'), two(0, 24), two(0, 60)).map(([sign, h, m]) => `${sign}${h}:${m}`),
);

describe('dates and times of a case', () => {
  it('are read as the date library reads them, impossible ones included', () => {
    fc.assert(
      fc.property(day, time, offset, (date, clock, zone) => {
        const text = `${date}T${clock}${zone}`;
        const known = attempt(() => Temporal.Instant.from(text).epochMilliseconds);
        expect(parseInstant(text)).toBe(known);
        const local = attempt(
          () => Temporal.PlainDate.from(date).toZonedDateTime('UTC').epochMilliseconds / MS_PER_DAY,
        );
        expect(parseDay(date)).toBe(local);
        const month = attempt(() => {
          const whole = Temporal.PlainYearMonth.from(date.slice(0, 7));
          return (
            whole.toPlainDate({ day: whole.daysInMonth }).toZonedDateTime('UTC').epochMilliseconds /
            MS_PER_DAY
          );
        });
        expect(parseDay(date.slice(0, 7), 'last-day')).toBe(month);
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    '2026-11-25T10:00',
    '2026-11-25 10:00Z',
    '2026-11-25T10:00:00.1234Z',
    '2026-11-25T10Z',
    '+002026-11-25T10:00Z',
    '2026-11-25T10:00+01',
    '2026-11-25T10:00Z\n',
    ' 2026-11-25T10:00Z',
  ])('gives nothing for %j, which is no instant with minutes and an offset', (text) => {
    expect(parseInstant(text)).toBeUndefined();
  });
});

describe('the local clock', () => {
  const instant = fc.integer({ min: Date.UTC(1905, 0), max: Date.UTC(2045, 0) });
  const zone = fc.constantFrom(...ZONES);

  it('shows the day and hour that two date libraries show', () => {
    fc.assert(
      fc.property(instant, zone, (at, where) => {
        const there = Temporal.Instant.fromEpochMilliseconds(at).toZonedDateTimeISO(where);
        const date = there.toPlainDate().toZonedDateTime('UTC').epochMilliseconds / MS_PER_DAY;
        expect(localDay(at, where)).toBe(date);
        const { hour, minute, second, millisecond } = there;
        // To less than a millisecond: the two add up in another order.
        expect(localHour(at, where)).toBeCloseTo(
          hour + minute / 60 + (second + millisecond / 1000) / 3600,
          8,
        );
        const second_ = DateTime.fromMillis(at, { zone: where });
        expect(localDay(at, where)).toBe(
          DateTime.utc(second_.year, second_.month, second_.day).toMillis() / MS_PER_DAY,
        );
      }),
      { numRuns: 3000 },
    );
  });

  it('is written as the date library writes it', () => {
    fc.assert(
      fc.property(instant, zone, (at, where) => {
        const there = Temporal.Instant.fromEpochMilliseconds(at);
        expect(formatInstant(at)).toBe(there.toString());
        expect(formatInstant(at - (at % 1000))).toBe(
          Temporal.Instant.fromEpochMilliseconds(at - (at % 1000)).toString(),
        );
        const local = there.toZonedDateTimeISO(where);
        expect(formatLocal(at, where)).toBe(
          `${local.toPlainDate()} ${local.toPlainTime().toString({ smallestUnit: 'minute' })}`,
        );
        expect(formatDay(localDay(at, where))).toBe(local.toPlainDate().toString());
      }),
      { numRuns: 2000 },
    );
  });

  it('starts every day where the date library puts its midnight, days without one included', () => {
    const midnight = Temporal.PlainTime.from('00:00');
    fc.assert(
      fc.property(fc.integer({ min: -20_000, max: 27_000 }), zone, (number, where) => {
        const known = Temporal.Instant.fromEpochMilliseconds(number * MS_PER_DAY)
          .toZonedDateTimeISO('UTC')
          .toPlainDate()
          .toZonedDateTime({ timeZone: where, plainTime: midnight }).epochMilliseconds;
        expect(startOfDay(number, where)).toBe(known);
      }),
      { numRuns: 3000 },
    );
    // Every jump of these zones in four years, day by day.
    for (const where of ZONES) {
      for (let number = 19_700; number < 21_200; number += 1) {
        expect(localDay(startOfDay(number, where), where)).toBe(number);
        expect(localDay(startOfDay(number, where) - 1, where)).toBeLessThan(number);
      }
    }
  });

  it('is not read in a zone nobody knows', () => {
    expect(isTimeZone('Europe/Copenhagen')).toBe(true);
    expect(isTimeZone('Europe/Nowhere')).toBe(false);
  });
});
