import type { Cause } from '../explain/assessment.ts';
import { ABSENT_REASONS, type AbsentReason, type StatedValue } from './case.ts';
import { type FactSlot, wholeOf } from './factTable.ts';
import { isObject } from './isObject.ts';
import { instantOrDay, type Moment } from './moment.ts';
import { type Bounds, isExact, type Reading } from './reading.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from './truth.ts';
import { type Refusal, readValue } from './value.ts';

/** What was read, and why a value was not used, if one was given and refused. */
export interface SuppliedReading {
  readonly reading: Reading;
  readonly refusal?: Refusal;
  /** An unusual value that was confirmed and is used all the same. */
  readonly confirmedUnusual?: true;
}

/** Reasons after which the record is known to be empty; after the others somebody may still find something. */
const EMPTY_RECORD: ReadonlySet<AbsentReason> = new Set([
  'not-performed',
  'not-applicable',
  'asked-unknown',
  'asked-declined',
]);

const isAbsentReason = (value: unknown): value is AbsentReason =>
  (ABSENT_REASONS as readonly unknown[]).includes(value);
const isStated = (value: unknown): value is StatedValue => isObject(value) && Object.hasOwn(value, 'value');

/** What is read of a fact whose value is not known: anything its domain allows. */
export function unknownReading(
  slot: FactSlot,
  cause: Cause,
  recorded: Truth,
  moment: Pick<Moment, 'asOf'>,
): Reading {
  return { fact: slot.fact, bounds: wholeOf(slot, moment.asOf), recorded, cause };
}

/** Reads one value of a case to bounds. Never throws, whatever JSON stands there. */
export function readSupplied(
  slot: FactSlot,
  raw: unknown,
  searched: boolean,
  moment: Moment,
): SuppliedReading {
  const { fact } = slot;
  if (raw === undefined && !searched) {
    return { reading: slot.silent ?? unknownReading(slot, 'not-supplied', UNKNOWN, moment) };
  }
  if (raw === undefined || raw === null) {
    return { reading: slot.empty ?? unknownReading(slot, 'nothing-recorded', FALSE, moment) };
  }
  if (isObject(raw) && Object.hasOwn(raw, 'absent')) {
    const reason = raw.absent;
    if (isAbsentReason(reason)) {
      return { reading: unknownReading(slot, reason, EMPTY_RECORD.has(reason) ? FALSE : UNKNOWN, moment) };
    }
    return refused(slot, moment, {
      code: 'wrong-type',
      message: 'the reason for absence is not one of the published codes',
    });
  }

  const stated: StatedValue = isStated(raw) ? raw : { value: raw as StatedValue['value'] };
  const read = readValue(slot, stated, moment);
  if ('code' in read) return refused(slot, moment, read);

  const at = typeof stated.at === 'string' ? stated.at : moment.recordedAt;
  const observed = at === undefined ? undefined : observedAt(at, moment);
  if (at !== undefined && observed === undefined) {
    return refused(slot, moment, {
      code: 'wrong-type',
      message: 'the time of observation is not a date-time with an offset',
    });
  }
  if (observed !== undefined && observed > moment.asOf) {
    return refused(slot, moment, {
      code: 'conflicting',
      message: 'it was observed after the moment of the case',
    });
  }
  if (slot.staleAfter !== undefined && !moment.ignoreStale) {
    if (observed === undefined) {
      return {
        reading: withOrigin(slot, wholeOf(slot, moment.asOf), 'undated', at, stated),
        refusal: { code: 'undated', message: 'it can go out of date and carries no time' },
      };
    }
    if (moment.asOf - observed > slot.staleAfter) {
      return {
        reading: withOrigin(slot, wholeOf(slot, moment.asOf), 'stale', at, stated),
        refusal: { code: 'stale', message: `it is older than ${fact.staleAfter}` },
      };
    }
  }
  const reading = withOrigin(
    slot,
    read.bounds,
    isExact(read.bounds) ? undefined : 'within-bounds',
    at,
    stated,
  );
  return read.confirmedUnusual ? { reading, confirmedUnusual: true } : { reading };
}

const refused = (slot: FactSlot, moment: Moment, refusal: Refusal): SuppliedReading => ({
  reading: unknownReading(slot, refusal.code, UNKNOWN, moment),
  refusal,
});

/** A recorded value with when and where it came from; put down key by key, for a case has dozens. */
function withOrigin(
  { fact }: FactSlot,
  bounds: Bounds,
  cause: Cause | undefined,
  at: string | undefined,
  { from, comparator }: StatedValue,
): Reading {
  const reading: { -readonly [Key in keyof Reading]: Reading[Key] } = { fact, bounds, recorded: TRUE };
  if (cause !== undefined) reading.cause = cause;
  if (at !== undefined) reading.at = at;
  if (typeof from === 'string') reading.from = from;
  if (comparator !== undefined) reading.comparator = comparator;
  return reading;
}

const observedAt = (at: string, moment: Moment): number | undefined =>
  at === moment.recordedAt ? moment.recordedInstant : instantOrDay(at, moment.zone);
