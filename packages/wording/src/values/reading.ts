import type { Cause, Fact, FactReading } from '@dwellset/core';
import { counted, factTitle, listed, type Words } from '../words.ts';
import { causeWords } from './cause.ts';
import { momentWords } from './moment.ts';
import { codeWords, type Described, valueWords } from './value.ts';

/** Causes under which the bounds say something; under the others they are merely the whole domain. */
const BOUNDED: ReadonlySet<Cause> = new Set(['within-bounds', 'derived']);
const NOT_KNOWN = 'not known – ';
/** More possible codes than this are counted, not listed. */
const MOST_LISTED = 4;

function interval(read: FactReading, described: Described, words: Words, zone: string): string | undefined {
  const limits = words.facts.get(read.fact)?.limits;
  const low = read.low === limits?.[0] ? undefined : read.low;
  const high = read.high === limits?.[1] ? undefined : read.high;
  const end = (value: number | string) => valueWords(value, described, words, zone);
  if (low !== undefined && high !== undefined) return `between ${end(low)} and ${end(high)}`;
  if (low !== undefined) return `${read.comparator === '>' ? 'more than' : 'at least'} ${end(low)}`;
  if (high !== undefined) return `${read.comparator === '<' ? 'less than' : 'at most'} ${end(high)}`;
  return undefined;
}

function answers(read: FactReading, described: Described, words: Words): string | undefined {
  if (read.yes === undefined && read.open === undefined) return undefined;
  const said = (codes: readonly string[]) => codes.map((code) => codeWords(code, described.codes, words));
  const yes = said(read.yes ?? []);
  const open = said(read.open ?? []);
  if (yes.length === 0 && open.length > MOST_LISTED) return undefined;
  const unanswered =
    open.length > MOST_LISTED ? `${open.length} others not answered` : `not answered: ${listed(open, 'and')}`;
  return `${yes.length === 0 ? '' : `${listed(yes, 'and')}; `}${unanswered}`;
}

/** How many entries a list has; an aggregate that found none has no value to show. */
function entriesFound(read: FactReading, fact: Fact | undefined): string | undefined {
  const noNewest = read.cause === 'no-entry' && fact?.from !== undefined && 'newest' in fact.from;
  if (noNewest) return 'none charted';
  const { entries, cause } = read;
  if (entries === undefined || (cause !== undefined && !BOUNDED.has(cause))) return undefined;
  if (cause === undefined) return entries === 0 ? 'none charted' : counted(entries, 'entry', 'entries');
  return entries === 0
    ? 'none charted, but there may be others'
    : `${counted(entries, 'entry', 'entries')}, not fully known`;
}

/** The value, or what is known of it, or why nothing is: never a yes or no that nobody recorded. */
export function readingWords(read: FactReading, words: Words, zone: string): string {
  const fact = words.facts.get(read.fact);
  const unit = read.unit ?? fact?.unit;
  const described: Described = { ...fact, ...(unit === undefined ? {} : { unit }) };
  if (read.value !== undefined) {
    const value = valueWords(read.value, described, words, zone);
    return read.assumed ? `${value}, assumed` : value;
  }
  const entries = entriesFound(read, fact);
  if (entries !== undefined) return entries;
  if (read.cause !== undefined && !BOUNDED.has(read.cause)) return NOT_KNOWN + causeWords(read.cause);
  const possible =
    fact?.type !== 'boolean' && read.possible !== undefined && read.possible.length <= MOST_LISTED
      ? listed(
          read.possible.map((code) => codeWords(code, described.codes, words)),
          'or',
        )
      : undefined;
  const bounds = interval(read, described, words, zone) ?? answers(read, described, words) ?? possible;
  return bounds ?? NOT_KNOWN + causeWords(read.cause ?? 'derived');
}

const withoutDay = (moment: string, day: string | undefined): string =>
  day !== undefined && moment.startsWith(`${day} `) ? moment.slice(day.length + 1) : moment;

/** When it was observed, where it came from, or which entries it was computed from. */
function origin(read: FactReading, words: Words, zone: string, day: string | undefined): string | undefined {
  const inputs = (read.inputs ?? []).map((input) => factTitle(input, words));
  const parts = [
    ...(read.at === undefined ? [] : [withoutDay(momentWords(read.at, zone), day)]),
    ...(read.from === undefined ? [] : [`from ${read.from}`]),
    ...(inputs.length === 0 ? [] : [`computed from ${listed(inputs, 'and')}`]),
  ];
  return parts.length === 0 ? undefined : parts.join(', ');
}

/** `15 days (2026-11-25 08:00, from the ward chart)`; on the stated day the hour alone. */
export function foundWords(read: FactReading, words: Words, zone: string, day?: string): string {
  const from = origin(read, words, zone, day);
  return from === undefined
    ? readingWords(read, words, zone)
    : `${readingWords(read, words, zone)} (${from})`;
}

/** As a remark behind a condition: what was found, or only why nothing is known. */
export function findingWords(read: FactReading, words: Words, zone: string): string {
  const found = foundWords(read, words, zone);
  return found.startsWith(NOT_KNOWN) ? found.slice(NOT_KNOWN.length) : `found: ${found}`;
}
