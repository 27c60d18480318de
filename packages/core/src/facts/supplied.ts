import type { Cause } from '../explain/assessment.ts';
import type { Fact } from '../release/fact.ts';
import { ABSENT_REASONS, type AbsentReason, type Answers, type StatedValue } from './case.ts';
import { type FactSlot, wholeOf } from './factTable.ts';
import { instantOrDay, type Moment } from './moment.ts';
import { type Bounds, isExact, type Reading } from './reading.ts';
import { roundToStep } from './rounding.ts';
import { parseDay, parseInstant, startOfDay } from './time.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from './truth.ts';
import { convert } from './units.ts';

export interface Refusal {
  readonly code: Cause;
  readonly message: string;
  readonly hint?: string;
}

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

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isAbsentReason = (value: unknown): value is AbsentReason =>
  (ABSENT_REASONS as readonly unknown[]).includes(value);
const isTextList = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((entry) => typeof entry === 'string');
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

type ValueRead = { bounds: Bounds; confirmedUnusual?: boolean } | Refusal;

function readValue(slot: FactSlot, stated: StatedValue, moment: Moment): ValueRead {
  const { fact, codes, single } = slot;
  const { value } = stated;
  const wrongType = (expected: string): Refusal => ({ code: 'wrong-type', message: `expected ${expected}` });
  if (stated.comparator !== undefined && fact.type !== 'number') {
    return wrongType('no comparator, which only numbers take');
  }
  switch (fact.type) {
    case 'number':
      return typeof value === 'number' && Number.isFinite(value)
        ? readNumber(fact, value, stated)
        : wrongType('a number');
    case 'boolean': {
      const bounds = typeof value === 'boolean' ? single.get(String(value)) : undefined;
      return bounds ? { bounds } : wrongType('true or false');
    }
    case 'code': {
      const bounds = typeof value === 'string' ? single.get(value) : undefined;
      return bounds ? { bounds } : wrongType(`one of ${codes.join(', ')}`);
    }
    case 'codes':
      return readCodes(slot, value);
    case 'date': {
      const day = typeof value === 'string' ? parseDay(value, fact.monthMeans) : undefined;
      return day === undefined ? wrongType('a date as YYYY-MM-DD') : { bounds: interval(day, day) };
    }
    case 'date-time':
      return typeof value === 'string'
        ? readInstant(value, moment)
        : wrongType('a date-time with its offset');
    case 'list':
      // Lists are read entry by entry, elsewhere.
      return wrongType('a list');
    case 'text':
      return typeof value === 'string' ? { bounds: { kind: 'text', text: value } } : wrongType('text');
  }
}

const interval = (low: number, high: number): Bounds => ({ kind: 'interval', low, high });

function readNumber(fact: Fact, value: number, stated: StatedValue): ValueRead {
  const unit = fact.unit ?? '1';
  if (stated.unit === undefined ? unit !== '1' : stated.unit !== unit) {
    const converted = stated.unit === undefined ? undefined : convert(value, stated.unit, unit);
    return {
      code: 'wrong-unit',
      message: stated.unit === undefined ? `its unit is not stated` : `its unit is ${stated.unit}`,
      ...(converted === undefined
        ? { hint: `state it in ${unit}` }
        : { hint: `state it in ${unit}: ${value} ${stated.unit} is ${converted} ${unit}` }),
    };
  }
  const rounded = roundToStep(value, fact.step);
  const [least, most] = fact.limits ?? [-Infinity, Infinity];
  if (rounded < least || rounded > most) {
    return { code: 'impossible', message: `${value} is outside ${least} to ${most} ${unit}` };
  }
  const [low, high] = fact.usual ?? [-Infinity, Infinity];
  const unusual = rounded < low || rounded > high;
  if (unusual && stated.confirmed !== true) {
    return {
      code: 'unusual',
      message: `${value} is outside the usual ${low} to ${high} ${unit}`,
      hint: 'confirm it if it is right',
    };
  }
  const confirmedUnusual = unusual ? { confirmedUnusual: true } : {};
  switch (stated.comparator) {
    case undefined:
      return { bounds: interval(rounded, rounded), ...confirmedUnusual };
    // Both ends count as possible: sound, at worst too cautious.
    case '<':
    case '<=':
      return { bounds: interval(least, rounded), ...confirmedUnusual };
    case '>':
    case '>=':
      return { bounds: interval(rounded, most), ...confirmedUnusual };
    default:
      return { code: 'wrong-type', message: 'the comparator is not <, <=, > or >=' };
  }
}

function readInstant(value: string, moment: Moment): ValueRead {
  const day = parseDay(value);
  if (day !== undefined) {
    const start = startOfDay(day, moment.zone);
    if (start > moment.asOf) return afterTheCase;
    return { bounds: interval(start, Math.min(startOfDay(day + 1, moment.zone) - 1, moment.asOf)) };
  }
  const instant = parseInstant(value);
  if (instant === undefined) {
    return { code: 'wrong-type', message: 'expected a date-time with its offset, or a date' };
  }
  return instant > moment.asOf ? afterTheCase : { bounds: interval(instant, instant) };
}

const afterTheCase: Refusal = { code: 'conflicting', message: 'it lies after the moment of the case' };

function readCodes(slot: FactSlot, value: unknown): ValueRead {
  const plain = isTextList(value);
  if (!plain && !isAnswers(value)) {
    return { code: 'wrong-type', message: 'expected a list of codes, or yes and no lists' };
  }
  const yes = plain ? value : (value.yes ?? []);
  const no = plain ? [] : (value.no ?? []);
  const key = JSON.stringify(plain ? yes : [yes, no]);
  const known = slot.answered.get(key);
  if (known) return { bounds: known };
  const { fact, codes } = slot;
  const unlisted: Truth = plain && fact.unlisted === 'no' ? FALSE : UNKNOWN;
  const answers = new Map<string, Truth>();
  for (const code of codes) answers.set(code, unlisted);
  for (const code of yes) if (answers.has(code)) answers.set(code, TRUE);
  for (const code of no) if (answers.has(code)) answers.set(code, FALSE);
  const foreign = [...yes, ...no].find((code) => !answers.has(code));
  if (foreign !== undefined) return { code: 'wrong-type', message: `${foreign} is not one of its codes` };
  if (yes.some((code) => no.includes(code))) {
    return { code: 'conflicting', message: 'a code is answered both yes and no' };
  }
  const bounds: Bounds = { kind: 'answers', answers };
  if (slot.answered.size < MOST_ANSWERED) slot.answered.set(key, bounds);
  return { bounds };
}

/** The same few lists of codes are sent again and again; so many of them share what is made of them. */
const MOST_ANSWERED = 256;

const isAnswers = (value: unknown): value is Answers =>
  isObject(value) &&
  Object.keys(value).every((key) => key === 'yes' || key === 'no') &&
  [value.yes, value.no].every((list) => list === undefined || isTextList(list));
