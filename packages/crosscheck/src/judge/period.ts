import type { Case, Release } from '@dwellset/core';

/** Whether the moment of the case lies outside the days for which the release was made; both ends belong to it. */
export function isOutOfPeriod({ effectivePeriod }: Release, patient: Case): boolean {
  if (!effectivePeriod) return false;
  const asOf = Date.parse(patient.asOf);
  if (Number.isNaN(asOf)) return false;
  const day = localDay(asOf, patient.timeZone);
  // ISO days in one form: their order is the order of their text.
  const { start, end } = effectivePeriod;
  return (start !== undefined && day < start) || (end !== undefined && day > end);
}

function localDay(ms: number, timeZone: string): string {
  const shown = (zone: string) =>
    new Intl.DateTimeFormat('en-CA', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' });
  try {
    return shown(timeZone).format(ms);
  } catch {
    // A zone that nobody knows is a problem of the case, reported elsewhere; the day must not hang on it.
    return shown('UTC').format(ms);
  }
}
