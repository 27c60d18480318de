import { momentWords } from '@dwellset/wording';

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

/** Milliseconds since the ward's clock showed midnight, seconds left out. */
function sinceMidnight(instant: number, zone: string): number {
  const clock = momentWords(new Date(instant).toISOString(), zone).slice(-5);
  return (Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))) * MINUTE;
}

/** When days begin between two instants, in ms since 1970, on the clock of the ward: days of 23 and 25 hours too. */
export function midnights(from: number, to: number, zone: string): number[] {
  const found: number[] = [];
  // An unknown zone has no clock.
  if (Number.isNaN(sinceMidnight(from, zone))) return found;
  for (let at = Math.floor(from / MINUTE) * MINUTE; ; ) {
    const next = at + DAY - sinceMidnight(at, zone);
    // The clock may have been put forward or back since.
    const off = sinceMidnight(next, zone);
    const mended = next - (off < DAY / 2 ? off : off - DAY);
    // Where the clock is put forward at midnight itself, the day begins at one.
    at = sinceMidnight(mended, zone) === 0 ? mended : next;
    if (at > to) return found;
    found.push(at);
  }
}

/** Every so many of them that no more remain than there is room for. */
export function thinned(instants: readonly number[], most: number): number[] {
  const step = Math.max(1, Math.ceil(instants.length / most));
  return instants.filter((_, at) => at % step === 0);
}
