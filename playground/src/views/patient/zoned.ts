import { momentWords } from '@dwellset/wording';

/** Minutes by which a zone is ahead of UTC at an instant. */
function ahead(instant: number, zone: string): number {
  const [day = '', clock = ''] = momentWords(new Date(instant).toISOString(), zone).split(' ');
  return Math.round((Date.parse(`${day}T${clock}:00Z`) - Math.floor(instant / 60_000) * 60_000) / 60_000);
}

const two = (count: number): string => String(count).padStart(2, '0');

/** `2026-11-25T09:00` on the clock of a zone → the same with its offset. */
export function withOffset(local: string, zone: string): string {
  const naive = Date.parse(`${local}:00Z`);
  if (Number.isNaN(naive)) return local;
  // Near a change of the clocks the first guess can be an hour off.
  const guess = ahead(naive, zone);
  const minutes = ahead(naive - guess * 60_000, zone);
  const size = Math.abs(minutes);
  return `${local}:00${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** For a date-and-time field: the clock of the zone, without offset. */
export function onTheClock(text: string, zone: string): string {
  const words = momentWords(text, zone);
  return /^\d{4}-\d{2}-\d{2} \d{2}:\d{2}$/.test(words) ? words.replace(' ', 'T') : '';
}
