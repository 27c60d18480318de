import type { CodeList, Fact } from '@dwellset/core';
import type { Truth } from './truth.ts';

/** What is known of one fact. Only the fields of its type mean anything. */
export interface Known {
  /** Number in the fact's unit, local day since 1970, or instant in ms since 1970. */
  readonly low: number;
  readonly high: number;
  /** A code may be any of these; a boolean `true` or `false`. */
  readonly may: readonly string[];
  /** Several codes: each answered yes, no, or open. */
  readonly answers: Readonly<Record<string, Truth>>;
  readonly text?: string;
  /** A list: its entries as they stand, and whether they are all there are and can all be read. */
  readonly items?: readonly Readonly<Record<string, unknown>>[];
  readonly isComplete?: boolean;
  readonly isRead?: boolean;
  readonly recorded: Truth;
  readonly cause?: string;
  /** Known to have no value at all. */
  readonly none: boolean;
  /** Whether a value stands in the case and is used. */
  readonly usable: boolean;
  /** Derived: the facts it was computed from. */
  readonly inputs: readonly string[];
}

/** Everything that the fact permits. */
export function anything(fact: Fact, codes: CodeList, asOf: number, cause: string, recorded: Truth): Known {
  const known = {
    low: fact.type === 'number' ? (fact.limits?.[0] ?? -Infinity) : -Infinity,
    high: fact.type === 'number' ? (fact.limits?.[1] ?? Infinity) : Infinity,
    may: [] as readonly string[],
    answers: {} as Record<string, Truth>,
    recorded,
    cause,
    none: false,
    usable: false,
    inputs: [],
  };
  if (fact.type === 'date-time') known.high = asOf;
  if (fact.type === 'boolean') known.may = ['true', 'false'];
  if (fact.type === 'code') known.may = Object.keys(codes);
  if (fact.type === 'codes') for (const code of Object.keys(codes)) known.answers[code] = 'unknown';
  return known;
}

export function exact(fact: Fact, known: Known): boolean {
  if (fact.type === 'boolean' || fact.type === 'code') return known.may.length === 1;
  if (fact.type === 'codes') return !Object.values(known.answers).includes('unknown');
  if (fact.type === 'text') return known.text !== undefined;
  if (fact.type === 'list') return known.isComplete === true && known.isRead === true;
  return known.low === known.high;
}

/** A multiple of the step, with no more digits than the step has. */
export function toStep(fact: Fact, value: number): number {
  if (fact.step === undefined || !Number.isFinite(value)) return value;
  const digits = (String(fact.step).split('.')[1] ?? '').length;
  return Number((Math.round(value / fact.step) * fact.step).toFixed(digits));
}
