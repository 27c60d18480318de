import type { Problem } from '../explain/assessment.ts';
import type { Case } from './case.ts';
import { isTimeZone, parseDay, parseInstant, startOfDay } from './time.ts';

/** The moment and place a case is read at. */
export interface Moment {
  readonly asOf: number;
  readonly zone: string;
  readonly recordedAt: string | undefined;
  /** The instant of `recordedAt`, read once a case. */
  readonly recordedInstant: number | undefined;
  /** Read values that have gone stale as if they had not; the forecast needs their ends. */
  readonly ignoreStale?: boolean;
}

/** The moment of a case; without a usable one nothing in the case can be dated, so nothing is used. */
export function momentOf(patient: Case): { moment: Moment; usable: boolean; problems: Problem[] } {
  const problems: Problem[] = [];
  const asOf = typeof patient.asOf === 'string' ? parseInstant(patient.asOf) : undefined;
  if (asOf === undefined) {
    problems.push({
      code: 'no-moment',
      message: 'the case states no moment (asOf) with its offset: no fact is used',
    });
  }
  const zone =
    typeof patient.timeZone === 'string' && isTimeZone(patient.timeZone) ? patient.timeZone : undefined;
  if (zone === undefined) {
    problems.push({ code: 'no-time-zone', message: 'the case states no IANA time zone: no fact is used' });
  }
  const recordedAt = typeof patient.recordedAt === 'string' ? patient.recordedAt : undefined;
  const usable = asOf !== undefined && zone !== undefined;
  const isNow = recordedAt !== undefined && recordedAt === patient.asOf && asOf !== undefined;
  const recordedInstant = isNow
    ? asOf
    : recordedAt === undefined
      ? undefined
      : instantOrDay(recordedAt, zone ?? 'UTC');
  const moment = { asOf: asOf ?? Infinity, zone: zone ?? 'UTC', recordedAt, recordedInstant };
  return { moment, usable, problems };
}

/** A day alone counts from its start: at worst the value is taken for older than it is. */
export function instantOrDay(text: string, zone: string): number | undefined {
  const day = text.includes('T') ? undefined : parseDay(text);
  return day === undefined ? parseInstant(text) : startOfDay(day, zone);
}
