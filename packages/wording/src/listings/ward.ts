import type { Outcome } from '@dwellset/core';
import { outcomeWords } from '../assessment/proof.ts';
import { counted } from '../words.ts';

/** Thousands set apart, the same in every locale: `10,000`. */
export const thousands = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ',');

const many = (count: number, one: string): string => counted(count, one).replace(/^\d+/, thousands(count));

/** Stands wherever figures of an invented ward do. */
export const WARD_CAUTION =
  'This ward is invented. The figures compare rules with each other; they are no forecast for any hospital.';

/** What a count over a ward leaves out: no change counted there is no proof that nothing changed. */
export const WARD_COUNTED =
  'Counted is how rules end. What a conclusion says, which items of stock are left and in which order, and changed words are compared for each patient in the ledger, not here.';

/** What a ward consists of: `10,000 patient-days of 1,814 invented patients`. */
export const wardSizeWords = (days: number, patients: number): string =>
  `${many(days, 'patient-day')} of ${many(patients, 'invented patient')}`;

/** `312 of 1,814 patients change, on 498 of 10,000 patient-days`: patients for whom a rule ends differently. */
export function wardChangedWords(
  changed: { readonly patients: number; readonly days: number },
  ward: { readonly patients: number; readonly days: number },
): string {
  if (changed.days === 0) return 'No rule ends differently for any patient of the ward';
  return (
    `${thousands(changed.patients)} of ${many(ward.patients, 'patient')} ` +
    `${changed.patients === 1 ? 'changes' : 'change'}, on ${thousands(changed.days)} of ${many(ward.days, 'patient-day')}`
  );
}

/** One direction of a change: `does not apply → applies`. A rule that was added has no outcome before. */
export const moveWords = (before: Outcome | undefined, now: Outcome): readonly [string, string] => [
  before === undefined ? 'no such rule' : outcomeWords({ outcome: before }),
  outcomeWords({ outcome: now }),
];

/** `498 patient-days, 312 patients`. */
export const affectedWords = (days: number, patients: number): string =>
  `${many(days, 'patient-day')}, ${many(patients, 'patient')}`;

/** A count for each patient-day, to two places; what is there never reads as nothing. */
export function perDayWords(count: number, days: number): string {
  if (count > 0 && count / days < 0.005) return 'under 0.01';
  return (days === 0 ? 0 : count / days).toFixed(2);
}

/** A share in whole per cent; none of nothing. Only all of it is 100 %, and only none of it is 0 %. */
export function shareWords(part: number, whole: number): string {
  if (whole === 0) return '–';
  const percent = Math.round((100 * part) / whole);
  if (percent === 100 && part < whole) return 'over 99 %';
  return percent === 0 && part > 0 ? 'under 1 %' : `${percent} %`;
}
