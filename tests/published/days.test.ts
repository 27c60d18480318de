import type { Fact } from '@dwellset/core';
import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { base, endsOf } from './facts.ts';

/** Calendar and elapsed time against luxon, a general-purpose date library that the product does not use. */
const FACTS: readonly Fact[] = [
  { ...base, id: 'catheter.inserted-at', type: 'date-time' },
  {
    ...base,
    id: 'catheter.days-in',
    type: 'number',
    unit: 'd',
    from: { calendarDays: { from: 'catheter.inserted-at', to: 'asOf' } },
  },
  {
    ...base,
    id: 'catheter.hours-in',
    type: 'number',
    unit: 'h',
    from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
  },
  { ...base, id: 'now.hour', type: 'number', unit: 'h', from: { localHour: { at: 'asOf' } } },
];
const ZONES = [
  'Europe/London',
  'America/New_York',
  'Pacific/Auckland',
  'Asia/Kathmandu',
  'America/St_Johns',
  'UTC',
];

const read = (id: string, inserted: DateTime | string, asOf: DateTime, zone: string) =>
  endsOf(FACTS, id, {
    asOf: asOf.toUTC().toISO() ?? '',
    timeZone: zone,
    facts: {
      'catheter.inserted-at': typeof inserted === 'string' ? inserted : (inserted.toUTC().toISO() ?? ''),
    },
  });

const calendarDays = (from: DateTime, to: DateTime, zone: string): number =>
  Math.round(
    DateTime.fromISO(to.setZone(zone).toISODate() ?? '', { zone: 'utc' }).diff(
      DateTime.fromISO(from.setZone(zone).toISODate() ?? '', { zone: 'utc' }),
      'days',
    ).days,
  );

describe('days in place', () => {
  it('agrees with a date library over random instants in zones with and without daylight saving', () => {
    const moments = fc.integer({ min: Date.UTC(2023, 0, 1), max: Date.UTC(2029, 11, 31) });
    const seed = 20_261_125;
    fc.assert(
      fc.property(
        moments,
        fc.integer({ min: 0, max: 120 * 86_400_000 }),
        fc.constantFrom(...ZONES),
        (at, gap, zone) => {
          const [from, to] = [DateTime.fromMillis(at), DateTime.fromMillis(at + gap)];
          const days = read('catheter.days-in', from, to, zone);
          expect([days.low, days.high]).toEqual([calendarDays(from, to, zone), calendarDays(from, to, zone)]);
          expect(read('catheter.hours-in', from, to, zone).low).toBeCloseTo(to.diff(from, 'hours').hours, 6);
          const local = to.setZone(zone);
          const hour = local.hour + local.minute / 60 + (local.second + local.millisecond / 1000) / 3600;
          expect(read('now.hour', from, to, zone).low).toBeCloseTo(hour, 6);
        },
      ),
      { numRuns: 400, seed },
    );
  });

  it.each([
    [
      'the night clocks go back: 25 hours are one calendar day',
      '2026-10-25T00:00',
      '2026-10-26T00:00',
      25,
      1,
    ],
    [
      'the night clocks go forward: 23 hours are one calendar day',
      '2026-03-29T00:00',
      '2026-03-30T00:00',
      23,
      1,
    ],
    ['over a leap day', '2028-02-28T12:00', '2028-03-01T12:00', 48, 2],
    ['over the end of a month', '2026-11-30T23:50', '2026-12-01T00:10', 1 / 3, 1],
    ['ten minutes before midnight to ten past', '2026-11-24T23:50', '2026-11-25T00:10', 1 / 3, 1],
  ])('%s', (_name, from, to, hours, days) => {
    const zone = 'Europe/London';
    const [inserted, asOf] = [DateTime.fromISO(from, { zone }), DateTime.fromISO(to, { zone })];
    expect(read('catheter.hours-in', inserted, asOf, zone).low).toBeCloseTo(hours, 6);
    expect(read('catheter.days-in', inserted, asOf, zone).low).toBe(days);
  });

  it('knows the calendar days of an insertion recorded by date alone, and the hours within a day', () => {
    const asOf = DateTime.fromISO('2026-11-25T09:00', { zone: 'Europe/London' });
    expect(read('catheter.days-in', '2026-11-24', asOf, 'Europe/London')).toMatchObject({ low: 1, high: 1 });
    const hours = read('catheter.hours-in', '2026-11-24', asOf, 'Europe/London');
    expect(hours.low).toBeCloseTo(9, 5);
    expect(hours.high).toBe(33);
  });

  it('does not put an insertion recorded for today after the moment of the case', () => {
    const asOf = DateTime.fromISO('2026-11-25T09:00', { zone: 'Europe/London' });
    expect(read('catheter.hours-in', '2026-11-25', asOf, 'Europe/London')).toMatchObject({ low: 0, high: 9 });
  });
});
