import type { Case, Fact } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { asksOf, fact, faultsOf, readOne } from './support/read.ts';

const inserted = fact('catheter.inserted-at', { type: 'date-time' });
const removed = fact('catheter.removed-at', { type: 'date-time', notBefore: inserted.id });
const useBy = fact('pack.use-by', { type: 'date', monthMeans: 'last-day' });
const size = fact('catheter.size', { type: 'number', unit: '[Ch]' });
const OPERANDS = [inserted, removed, useBy, size];

const number = (unit: string, from: NonNullable<Fact['from']>, parts: Partial<Fact> = {}): Fact =>
  fact('now.derived', { type: 'number', unit, from, ...parts });
const hoursIn = (unit = 'h', parts: Partial<Fact> = {}) =>
  number(unit, { elapsed: { from: inserted.id, to: 'asOf' } }, parts);
const daysIn = number('d', { calendarDays: { from: inserted.id, to: 'asOf' } });
const daysLeft = number('d', { calendarDays: { from: 'asOf', to: useBy.id } });
const hourNow = (parts: Partial<Fact> = {}) => number('h', { localHour: { at: 'asOf' } }, parts);
const hourRemoved = number('h', { localHour: { at: removed.id } });
const read = (of: Fact, patient: Partial<Case>) => readOne(of, OPERANDS, {}, patient);
const at = (asOf: string, facts: Case['facts'], timeZone = 'Europe/London'): Partial<Case> => ({
  asOf,
  timeZone,
  facts,
});
const since = (from: string, to: string, zone?: string) => at(to, { [inserted.id]: from }, zone);

describe('time passed', () => {
  it.each<[string, Fact, Partial<Case>, unknown[]]>([
    [
      'hours between two instants',
      hoursIn(),
      since('2026-11-24T09:00:00Z', '2026-11-25T09:00:00Z'),
      [24, 24, 'true'],
    ],
    ['in minutes', hoursIn('min'), since('2026-11-25T08:30:00Z', '2026-11-25T09:00:00Z'), [30, 30, 'true']],
    [
      'in days of 24 hours',
      hoursIn('d'),
      since('2026-11-23T21:00:00Z', '2026-11-25T09:00:00Z'),
      [1.5, 1.5, 'true'],
    ],
    [
      'the night clocks go forward has an hour less',
      hoursIn(),
      since('2026-03-28T22:00:00+00:00', '2026-03-29T08:00:00+01:00'),
      [9, 9, 'true'],
    ],
    [
      'the night clocks go back has an hour more',
      hoursIn(),
      since('2026-10-24T22:00:00+01:00', '2026-10-25T08:00:00+00:00'),
      [11, 11, 'true'],
    ],
    ['over a leap day', hoursIn(), since('2028-02-28T12:00:00Z', '2028-03-01T12:00:00Z'), [48, 48, 'true']],
    ['over a month end', hoursIn(), since('2026-11-30T23:30:00Z', '2026-12-01T00:30:00Z'), [1, 1, 'true']],
    [
      'a day alone is open by a day',
      hoursIn('h', { step: 1 }),
      since('2026-11-24', '2026-11-25T09:00:00Z'),
      [9, 33, 'true', 'derived'],
    ],
    [
      'a day alone of 23 hours',
      hoursIn('h', { step: 1 }),
      since('2026-03-29', '2026-03-30T08:00:00+01:00'),
      [8, 31, 'true', 'derived'],
    ],
    [
      'rounded to the step, halves up',
      hoursIn('h', { step: 0.5 }),
      since('2026-11-25T08:15:00Z', '2026-11-25T09:00:00Z'),
      [1, 1, 'true'],
    ],
    [
      'nobody supplied the start',
      hoursIn('h', { limits: [0, 900] }),
      at('2026-11-25T09:00:00Z', {}),
      [0, 900, 'unknown', 'derived'],
    ],
    [
      'the start is known not to be recorded',
      hoursIn('h', { limits: [0, 900] }),
      at('2026-11-25T09:00:00Z', { [inserted.id]: null }),
      [0, 900, 'false', 'derived'],
    ],
    [
      'longer than can be',
      hoursIn('h', { limits: [0, 20] }),
      since('2026-11-24T09:00:00Z', '2026-11-25T09:00:00Z'),
      [0, 20, 'unknown', 'impossible'],
    ],
    [
      'between two instants of the record',
      number('h', { elapsed: { from: inserted.id, to: removed.id } }),
      at('2026-11-25T09:00:00Z', {
        [inserted.id]: '2026-11-25T06:00:00Z',
        [removed.id]: '2026-11-25T08:00:00Z',
      }),
      [2, 2, 'true'],
    ],
    [
      'an end before its start is believed neither way',
      number('h', { elapsed: { from: inserted.id, to: removed.id } }),
      at('2026-11-25T09:00:00Z', {
        [inserted.id]: '2026-11-25T08:00:00Z',
        [removed.id]: '2026-11-25T06:00:00Z',
      }),
      [-Infinity, Infinity, 'unknown', 'derived'],
    ],
  ])('%s', (_name, of, patient, expected) => {
    expect(read(of, patient)).toEqual(expected);
  });
});

describe('calendar days', () => {
  it.each<[string, Fact, Partial<Case>, unknown[]]>([
    [
      'ten minutes over midnight are one day',
      daysIn,
      since('2026-11-24T23:55:00Z', '2026-11-25T00:05:00Z'),
      [1, 1, 'true'],
    ],
    [
      'midnight is that of the local clock',
      daysIn,
      since('2026-06-24T22:55:00Z', '2026-06-24T23:05:00Z'),
      [1, 1, 'true'],
    ],
    [
      'the same instants on a clock elsewhere',
      daysIn,
      since('2026-06-24T22:55:00Z', '2026-06-24T23:05:00Z', 'America/New_York'),
      [0, 0, 'true'],
    ],
    [
      '25 hours on the night clocks go back are one day',
      daysIn,
      since('2026-10-25T00:00:00+01:00', '2026-10-26T00:00:00+00:00'),
      [1, 1, 'true'],
    ],
    [
      '23 hours on the night clocks go forward are one day',
      daysIn,
      since('2026-03-29T00:00:00+00:00', '2026-03-30T00:00:00+01:00'),
      [1, 1, 'true'],
    ],
    ['over a leap day', daysIn, since('2028-02-28T12:00:00Z', '2028-03-01T12:00:00Z'), [2, 2, 'true']],
    [
      'over the end of February in other years',
      daysIn,
      since('2027-02-28T12:00:00Z', '2027-03-01T12:00:00Z'),
      [1, 1, 'true'],
    ],
    ['over a month end', daysIn, since('2026-11-30', '2026-12-01T00:00:00Z'), [1, 1, 'true']],
    ['a day alone is enough', daysIn, since('2026-11-20', '2026-11-25T09:00:00Z'), [5, 5, 'true']],
    [
      'an unknown start was at least not later',
      daysIn,
      at('2026-11-25T09:00:00Z', {}),
      [0, Infinity, 'unknown', 'derived'],
    ],
    [
      'a month as use-by means its last day',
      daysLeft,
      at('2028-02-25T09:00:00Z', { [useBy.id]: '2028-02' }),
      [4, 4, 'true'],
    ],
    [
      'past its use-by',
      daysLeft,
      at('2026-11-25T09:00:00Z', { [useBy.id]: '2026-10-31' }),
      [-25, -25, 'true'],
    ],
    [
      'no use-by supplied',
      daysLeft,
      at('2026-11-25T09:00:00Z', {}),
      [-Infinity, Infinity, 'unknown', 'derived'],
    ],
  ])('%s', (_name, of, patient, expected) => {
    expect(read(of, patient)).toEqual(expected);
  });
});

describe('hour on the local clock', () => {
  it.each<[string, Fact, Partial<Case>, unknown[]]>([
    ['in winter', hourNow(), at('2026-11-25T14:30:00Z', {}), [14.5, 14.5, 'true']],
    ['in summer', hourNow(), at('2026-06-25T14:30:00Z', {}), [15.5, 15.5, 'true']],
    [
      'before the hour that is left out',
      hourNow(),
      at('2026-03-29T00:59:00Z', {}),
      [0 + 59 / 60, 0 + 59 / 60, 'true'],
    ],
    ['after the hour that is left out', hourNow(), at('2026-03-29T01:00:00Z', {}), [2, 2, 'true']],
    ['the hour that comes twice, first', hourNow(), at('2026-10-25T00:30:00Z', {}), [1.5, 1.5, 'true']],
    ['the hour that comes twice, again', hourNow(), at('2026-10-25T01:30:00Z', {}), [1.5, 1.5, 'true']],
    [
      'in a zone off by three quarters',
      hourNow(),
      at('2026-11-25T00:00:00Z', {}, 'Asia/Kathmandu'),
      [5.75, 5.75, 'true'],
    ],
    [
      'just before midnight, rounded up to 24',
      hourNow({ step: 1 }),
      at('2026-11-25T23:40:00Z', {}),
      [24, 24, 'true'],
    ],
    [
      'a day alone has any hour',
      hourRemoved,
      at('2026-11-25T09:00:00Z', { [removed.id]: '2026-11-24' }),
      [0, 24, 'true', 'derived'],
    ],
    [
      'nobody supplied the instant',
      hourRemoved,
      at('2026-11-25T09:00:00Z', {}),
      [0, 24, 'unknown', 'derived'],
    ],
  ])('%s', (_name, of, patient, expected) => {
    expect(read(of, patient)).toEqual(expected);
  });
});

describe('what the check finds', () => {
  it.each<[string, Fact, string[]]>([
    ['nothing in hours since insertion', hoursIn(), []],
    ['nothing in calendar days of a date', daysLeft, []],
    ['nothing in the hour of the case', hourNow(), []],
    ['a result that is no time', hoursIn('mL'), ['']],
    [
      'a result that is no number',
      fact('now.derived', { type: 'date-time', from: { elapsed: { from: inserted.id, to: 'asOf' } } }),
      [''],
    ],
    ['elapsed time from a day', number('h', { elapsed: { from: useBy.id, to: 'asOf' } }), ['/elapsed/from']],
    ['calendar days in hours', number('h', { calendarDays: { from: inserted.id, to: 'asOf' } }), ['']],
    [
      'calendar days to a number',
      number('d', { calendarDays: { from: inserted.id, to: size.id } }),
      ['/calendarDays/to'],
    ],
    ['the hour of a day', number('h', { localHour: { at: useBy.id } }), ['/localHour/at']],
    ['an hour in days', number('d', { localHour: { at: 'asOf' } }), ['']],
  ])('%s', (_name, of, expected) => {
    expect(faultsOf(of, OPERANDS).map((fault) => fault.at)).toEqual(expected);
  });
});

describe('what to ask', () => {
  it.each<[string, Fact, Case['facts'], string[]]>([
    ['the start of elapsed time', hoursIn(), {}, [inserted.id]],
    ['nothing once it is exact', hoursIn(), { [inserted.id]: '2026-11-25T06:00:00Z' }, []],
    [
      'the time of day where only the day is known',
      hoursIn(),
      { [inserted.id]: '2026-11-24' },
      [inserted.id],
    ],
    [
      'both ends in their order',
      number('d', { calendarDays: { from: inserted.id, to: removed.id } }),
      {},
      [inserted.id, removed.id],
    ],
    ['nothing for the hour of the case', hourNow(), {}, []],
    ['the instant whose hour is read', hourRemoved, { [removed.id]: '2026-11-24' }, [removed.id]],
  ])('%s', (_name, of, facts, expected) => {
    expect(asksOf(of, OPERANDS, {}, { facts })).toEqual(expected);
  });
});
