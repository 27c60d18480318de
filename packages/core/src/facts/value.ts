import type { Cause } from '../explain/assessment.ts';
import type { Fact } from '../release/fact.ts';
import type { Answers, StatedValue } from './case.ts';
import type { FactSlot } from './factTable.ts';
import { isObject } from './isObject.ts';
import type { Moment } from './moment.ts';
import type { Bounds } from './reading.ts';
import { roundToStep } from './rounding.ts';
import { parseDay, parseInstant, startOfDay } from './time.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from './truth.ts';
import { convert } from './units.ts';

/** Why a value is not used, and what would make it usable. */
export interface Refusal {
  readonly code: Cause;
  readonly message: string;
  readonly hint?: string;
}

const isTextList = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((entry) => typeof entry === 'string');

/** What a value says, and whether it is unusual and was confirmed; or why it is not used. */
export type ValueRead = { bounds: Bounds; confirmedUnusual?: boolean } | Refusal;

/** Reads a value as a fact of its type, whenever it was observed. */
export function readValue(slot: FactSlot, stated: StatedValue, moment: Moment): ValueRead {
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

export function readCodes(slot: FactSlot, value: unknown): ValueRead {
  const plain = isTextList(value);
  if (!plain && !isAnswers(value)) {
    return { code: 'wrong-type', message: 'expected a list of codes, or yes and no lists' };
  }
  const yes = plain ? value : (value.yes ?? []);
  const no = plain ? [] : (value.no ?? []);
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
  return { bounds: { kind: 'answers', answers } };
}

const isAnswers = (value: unknown): value is Answers =>
  isObject(value) &&
  Object.keys(value).every((key) => key === 'yes' || key === 'no') &&
  [value.yes, value.no].every((list) => list === undefined || isTextList(list));
