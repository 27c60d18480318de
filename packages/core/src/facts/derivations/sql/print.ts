import type { Constant } from '../../../release/condition.ts';
import type { Fact } from '../../../release/fact.ts';
import type { Table } from '../../../release/parameter.ts';
import { placesOf } from '../../rounding.ts';

/** What the printing of a derived fact may look up. */
export interface SqlNames {
  fact(id: string): Fact;
  parameter(id: string): Constant;
  table(id: string): Table;
  codes(list: string): readonly string[];
  /** Whether some derivation reads the hour of this instant on the local clock, so that it needs an hour column. */
  hourRead(id: string): boolean;
}

export interface Ends {
  readonly low: string;
  readonly high: string;
}

/** What one kind prints, before it is rounded to the fact's step and clipped to its limits. */
export interface Printed {
  /** Ends of a number, an instant or a day. */
  readonly ends?: Ends;
  /** The local days of an instant's ends, and its hour where it is exact. */
  readonly days?: Ends;
  readonly hour?: string;
  /** Mask of possible codes. */
  readonly may?: string;
  /** Masks of the codes answered yes and of the open ones. */
  readonly answers?: { readonly yes: string; readonly open: string };
  readonly recorded: string;
  /** The condition under which it is known to have no value; absent where that cannot be. */
  readonly none?: string;
}

/** The prefix of a fact's columns; the moment of the case has the prefix `now`. */
export const sqlPrefix = (id: string): string =>
  id === 'asOf' ? 'now' : id.replace('.', '__').replaceAll('-', '_');

export const column = (id: string, part: string): string => `${sqlPrefix(id)}__${part}`;

/** The columns of what a rule set concludes; no fact has such a name. */
export const conclusionColumn = (set: string, part: 'may' | 'settled' | 'stands'): string =>
  `conclusion__of__${set.replaceAll('-', '_')}__${part}`;

/** A real number, so that no division is cut to an integer; SQL has no word for infinity, so it overflows. */
export function literal(value: number): string {
  if (value === Infinity) return '9e999';
  if (value === -Infinity) return '(-9e999)';
  const text = String(value);
  const real = /[.e]/.test(text) ? text : `${text}.0`;
  return value < 0 ? `(${real})` : real;
}

export const either = (condition: string, then: string, otherwise: string): string =>
  `CASE WHEN ${condition} THEN ${then} ELSE ${otherwise} END`;

/** The first value whose condition holds. */
export const firstOf = (
  cases: readonly (readonly [condition: string, value: string])[],
  otherwise: string,
): string =>
  cases.length === 0
    ? otherwise
    : `CASE ${cases.map(([condition, value]) => `WHEN ${condition} THEN ${value}`).join(' ')} ELSE ${otherwise} END`;

/** SQLite's spelling of the standard's LEAST and GREATEST; with one argument they would be aggregates. */
const among = (name: 'min' | 'max', values: readonly string[]): string =>
  values.length === 1 ? `(${values[0]})` : `${name}(${values.join(', ')})`;
export const least = (values: readonly string[]): string => among('min', values);
export const greatest = (values: readonly string[]): string => among('max', values);

export const all = (conditions: readonly string[]): string => `(${conditions.join(' AND ')})`;
export const any = (conditions: readonly string[]): string => `(${conditions.join(' OR ')})`;

/** Truths and masks joined bit by bit. */
export const bitAnd = (values: readonly string[]): string =>
  `(${values.map((value) => `(${value})`).join(' & ')})`;
export const bitOr = (values: readonly string[]): string =>
  `(${values.map((value) => `(${value})`).join(' | ')})`;
export const shares = (mask: string, bits: number): string => `(${mask} & ${bits}) <> 0`;

/** SQL's integers would hold more, but beyond this a number in JavaScript is no longer an exact mask. */
const MOST_CODES = 53;

/** The bit of each code: its place in the list; for yes or no, true comes first. */
export function bitsOf(
  fact: Pick<Fact, 'id' | 'type' | 'codes'>,
  names: Pick<SqlNames, 'codes'>,
): ReadonlyMap<string, number> {
  const codes = fact.type === 'boolean' ? ['true', 'false'] : names.codes(fact.codes ?? '');
  if (codes.length > MOST_CODES) {
    throw new RangeError(`${fact.id} has ${codes.length} codes; a column holds a mask of ${MOST_CODES}`);
  }
  return new Map(codes.map((code, index) => [code, 2 ** index]));
}

export const maskOf = (bits: ReadonlyMap<string, number>, codes: Iterable<string> = bits.keys()): number =>
  [...new Set(codes)].reduce((sofar, code) => sofar + (bits.get(code) ?? 0), 0);

/**
 * Rounds to a step, halves up, as the reading of facts does. Doubling and flooring are exact, so unlike adding a half
 * they cannot move a value over the border; a whole number divided by a power of ten has no binary noise.
 */
export function rounded(value: string, step: number | undefined): string {
  if (step === undefined) return value;
  const scale = 10 ** placesOf(step);
  const steps = `(${value}) / ${literal(step)}`;
  const whole = `(floor(2.0 * (${steps})) - floor(${steps}))`;
  const multiple = `${whole} * ${literal(Math.round(step * scale))} / ${literal(scale)}`;
  return either(`abs(${value}) < 9e999`, multiple, value);
}
