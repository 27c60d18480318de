import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { midnights, thinned } from '../../playground/src/views/patient/midnights.ts';

const ZONES = ['Europe/Berlin', 'America/Santiago', 'Asia/Kathmandu', 'Pacific/Kiritimati', 'UTC'];

test.each(ZONES)(
  'the days of a year begin in %s when a date library says, clocks put forward and back',
  (zone) => {
    const from = Temporal.Instant.from('2026-01-01T10:17:33Z').toZonedDateTimeISO(zone);
    const to = from.add({ days: 400 });
    const wanted: number[] = [];
    for (let day = from.add({ days: 1 }).startOfDay(); ; day = day.add({ days: 1 }).startOfDay()) {
      if (day.epochMilliseconds > to.epochMilliseconds) break;
      wanted.push(day.epochMilliseconds);
    }
    expect(midnights(from.epochMilliseconds, to.epochMilliseconds, zone)).toEqual(wanted);
  },
);

test('a zone that nobody knows has no midnights, and a long stretch no more days than there is room for', () => {
  expect(midnights(0, 9e9, 'Nowhere/Atall')).toEqual([]);
  expect(thinned([1, 2, 3, 4, 5, 6, 7, 8, 9], 4)).toEqual([1, 4, 7]);
  expect(thinned([1, 2], 4)).toEqual([1, 2]);
});
