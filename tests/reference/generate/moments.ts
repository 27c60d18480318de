import type { Random } from './random.ts';

/** A zone with an instant at which its calendar does something: a clock change, a month end, a leap day. */
export const MOMENTS: readonly (readonly [zone: string, at: string])[] = [
  ['Europe/London', '2026-03-29T01:15:00Z'],
  ['Europe/London', '2026-10-25T00:30:00Z'],
  ['Europe/London', '2026-10-25T23:45:00Z'],
  ['America/New_York', '2026-03-08T07:30:00Z'],
  ['America/New_York', '2026-11-01T05:30:00Z'],
  ['Pacific/Auckland', '2026-04-04T14:15:00Z'],
  ['Pacific/Auckland', '2026-09-26T14:30:00Z'],
  ['Australia/Lord_Howe', '2026-04-04T15:15:00Z'],
  ['Australia/Lord_Howe', '2026-10-03T15:45:00Z'],
  ['Africa/Cairo', '2026-04-23T22:15:00Z'],
  ['Africa/Cairo', '2026-10-29T21:30:00Z'],
  ['America/Havana', '2026-11-01T05:15:00Z'],
  ['America/Havana', '2026-03-08T05:15:00Z'],
  ['Asia/Kolkata', '2028-02-29T18:00:00Z'],
  ['UTC', '2024-02-29T23:30:00Z'],
  ['Europe/London', '2026-02-28T23:45:00Z'],
  ['America/St_Johns', '2026-12-31T23:45:00Z'],
  ['Pacific/Chatham', '2026-01-31T12:00:00Z'],
];

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const BACK = [
  0,
  15 * MINUTE,
  HOUR,
  4 * HOUR,
  6 * HOUR,
  23 * HOUR,
  24 * HOUR,
  25 * HOUR,
  48 * HOUR,
  168 * HOUR,
  744 * HOUR,
];

/** An instant at or before another one, more often near than far, on a quarter of an hour. */
export function earlier(random: Random, than: number): number {
  return than - random.pick(BACK) - random.pick([0, 0, 15, 45]) * MINUTE;
}

/** ISO 8601, written with one of several offsets. */
export function isoInstant(random: Random, at: number): string {
  const offset = random.pick([0, 0, 60, -210, 570]);
  const local = new Date(at + offset * MINUTE).toISOString().replace('.000Z', '');
  if (offset === 0) return `${local}Z`;
  const two = (value: number) => String(value).padStart(2, '0');
  const minutes = Math.abs(offset);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

export const isoDate = (at: number) => new Date(at).toISOString().slice(0, 10);
