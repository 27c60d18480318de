import type { Constant, Fact, Operator } from '@dwellset/core';
import { codeWords, valueWords } from '../values/value.ts';
import { listed, lowerFirst, type Words } from '../words.ts';

export interface Comparison {
  readonly fact: string;
  readonly operator: Operator;
  readonly value?: Constant | undefined;
  /** Title of the local choice that the value comes from. */
  readonly choice?: string | undefined;
  /** Where the sentence says the opposite. */
  readonly negated?: boolean;
}

const MIRROR: Readonly<Record<Operator, Operator | undefined>> = {
  equal: 'notEqual',
  notEqual: 'equal',
  in: 'notIn',
  notIn: 'in',
  contains: 'doesNotContain',
  doesNotContain: 'contains',
  containsAny: undefined,
  lessThan: 'greaterThanInclusive',
  lessThanInclusive: 'greaterThan',
  greaterThan: 'lessThanInclusive',
  greaterThanInclusive: 'lessThan',
  before: 'greaterThanInclusive',
  after: 'lessThanInclusive',
  recorded: 'notRecorded',
  notRecorded: 'recorded',
};

const COMPARED: Partial<Record<Operator, readonly [number: string, date: string]>> = {
  lessThan: ['less than', 'before'],
  lessThanInclusive: ['at most', 'on or before'],
  greaterThan: ['more than', 'after'],
  greaterThanInclusive: ['at least', 'on or after'],
  before: ['before', 'before'],
  after: ['after', 'after'],
};

/** Titles are noun phrases: `reasons for the catheter` takes a plural verb, `urological history` does not. */
function isPlural(title: string): boolean {
  const [head = ''] = title.split(/ (?:of|for|to|that|in|on|since|from|until|after|before|without|by)\b/);
  return /[^su]s$/.test(head);
}

function flag(fact: Fact | undefined, title: string, value: boolean): string {
  const phrase = value ? fact?.phrases?.true : fact?.phrases?.false;
  return phrase ?? `${title}: ${value ? 'yes' : 'no'}`;
}

/** What is asked of a fact that is no plain yes or no; `said` is the right side in words. */
function predicate(operator: Operator, said: string, title: string, dated: boolean): string {
  const plural = isPlural(title);
  const be = plural ? 'are' : 'is';
  const compared = COMPARED[operator];
  if (compared) return `${title} ${be} ${compared[dated ? 1 : 0]} ${said}`;
  switch (operator) {
    case 'equal':
    case 'in':
      return `${title} ${be} ${said}`;
    case 'notEqual':
    case 'notIn':
      return `${title} ${be} not ${said}`;
    case 'doesNotContain':
      return `${title} ${plural ? 'do' : 'does'} not include ${said}`;
    case 'recorded':
      return `${title} ${be} recorded`;
    case 'notRecorded':
      return `nothing is recorded for ${title}`;
    default:
      return `${title} ${plural ? 'include' : 'includes'} ${said}`;
  }
}

/** Codes stand in quotation marks: their words may be whole clauses. */
function constantWords(
  value: Constant | undefined,
  fact: Fact | undefined,
  words: Words,
  zone?: string,
): string {
  if (value === undefined) return '';
  const dated = fact?.type === 'date' || fact?.type === 'date-time';
  if (typeof value === 'string' && dated) return valueWords(value, fact, words, zone);
  if (typeof value === 'object' || typeof value === 'string') {
    const codes = typeof value === 'string' ? [value] : value;
    return listed(
      codes.map((code) => `"${codeWords(code, fact?.codes, words)}"`),
      'or',
    );
  }
  // A threshold is written as its author wrote it, whatever digits readings are shown with.
  return valueWords(value, fact?.unit === undefined ? {} : { unit: fact.unit }, words, zone);
}

/** One comparison as a clause: a title, or the phrase of a yes-or-no fact, and what is asked of it. */
export function comparisonWords(comparison: Comparison, words: Words, zone?: string): string {
  const fact = words.facts.get(comparison.fact);
  const title = fact ? lowerFirst(fact.title) : comparison.fact;
  const mirror = comparison.negated ? MIRROR[comparison.operator] : undefined;
  const operator = mirror ?? comparison.operator;
  const { value } = comparison;
  const choice = comparison.choice === undefined ? '' : ` (local choice: ${lowerFirst(comparison.choice)})`;
  const dated = fact?.type === 'date' || fact?.type === 'date-time';
  const said =
    typeof value === 'boolean' && (operator === 'equal' || operator === 'notEqual')
      ? flag(fact, title, (operator === 'equal') === value)
      : predicate(operator, constantWords(value, fact, words, zone), title, dated);
  return comparison.negated && mirror === undefined ? `not (${said}${choice})` : said + choice;
}
