import type { Case, CodeList, Fact } from '@dwellset/core';
import { day, durationMs, instant, lastDayOfMonth, startOfDay } from './dates.ts';
import { anything, exact, type Known, toStep } from './known.ts';
import type { Truth } from './truth.ts';

const LOOKED_AND_FOUND_NOTHING = ['not-performed', 'not-applicable', 'asked-unknown', 'asked-declined'];

/** Where values are looked up: the case's facts, or the attributes of one option. */
export interface Sheet {
  readonly values: Readonly<Record<string, unknown>>;
  readonly searched: (group: string) => boolean;
  readonly recordedAt?: string;
}

interface Stated {
  readonly value: unknown;
  readonly unit?: string;
  readonly at?: string;
  readonly comparator?: string;
  readonly confirmed?: boolean;
}

/** Reads one value as it stands, before it is held against the other facts. */
export function readSupplied(fact: Fact, codes: CodeList, record: Sheet, moment: Case): Known {
  const asOf = instant(moment.asOf) as number;
  const unread = (cause: string, recorded: Truth) => anything(fact, codes, asOf, cause, recorded);
  if (!Object.hasOwn(record.values, fact.id)) {
    const looked = record.searched(fact.id.slice(0, fact.id.indexOf('.')));
    return looked ? unread('nothing-recorded', 'false') : unread('not-supplied', 'unknown');
  }
  const raw = record.values[fact.id];
  if (raw === null) return unread('nothing-recorded', 'false');
  const parts = typeof raw === 'object' && !Array.isArray(raw) ? (raw as Record<string, unknown>) : {};
  if (typeof parts.absent === 'string')
    return unread(parts.absent, LOOKED_AND_FOUND_NOTHING.includes(parts.absent) ? 'false' : 'unknown');

  const stated: Stated = 'value' in parts ? (parts as unknown as Stated) : { value: raw };
  const read = readValue(fact, codes, stated, asOf, moment.timeZone);
  if (typeof read === 'string') return unread(read, 'unknown');
  // Each entry carries its own time.
  if (fact.type === 'list') return { ...unread('within-bounds', 'true'), ...read, usable: true };
  const at = stated.at ?? record.recordedAt;
  if (at !== undefined && (instant(at) as number) > asOf) return unread('conflicting', 'unknown');
  if (fact.staleAfter !== undefined) {
    if (at === undefined) return unread('undated', 'true');
    if (asOf - (instant(at) as number) > durationMs(fact.staleAfter)) return unread('stale', 'true');
  }
  const known: Known = { ...unread('', 'true'), ...read, usable: true };
  const { cause: _, ...withoutCause } = known;
  return exact(fact, known) ? withoutCause : { ...known, cause: 'within-bounds' };
}

/** The bounds that a value states, or why it is refused. */
function readValue(
  fact: Fact,
  codes: CodeList,
  stated: Stated,
  asOf: number,
  zone: string,
): Partial<Known> | string {
  const { value } = stated;
  switch (fact.type) {
    case 'boolean':
      return typeof value === 'boolean' ? { may: [String(value)] } : 'wrong-type';
    case 'text':
      return typeof value === 'string' ? { text: value } : 'wrong-type';
    case 'list':
      return readEntries(fact, value);
    case 'code':
      return typeof value === 'string' && Object.hasOwn(codes, value) ? { may: [value] } : 'wrong-type';
    case 'codes':
      return readAnswers(fact, codes, value);
    case 'number':
      return readNumber(fact, stated);
    case 'date': {
      if (typeof value !== 'string') return 'wrong-type';
      const read = day(value) ?? (fact.monthMeans === 'last-day' ? lastDayOfMonth(value) : undefined);
      return read === undefined ? 'wrong-type' : { low: read, high: read };
    }
    case 'date-time': {
      if (typeof value !== 'string') return 'wrong-type';
      const dated = day(value);
      const low = dated === undefined ? instant(value) : startOfDay(dated, zone);
      if (low === undefined) return 'wrong-type';
      if (low > asOf) return 'conflicting';
      return { low, high: dated === undefined ? low : Math.min(asOf, startOfDay(dated + 1, zone) - 1) };
    }
  }
}

/** A list is read entry by entry where it is looked at; here it only has to be one. */
function readEntries(fact: Fact, value: unknown): Partial<Known> | string {
  const whole = Array.isArray(value) ? { items: value } : (value as { items?: unknown; complete?: boolean });
  const { items } = whole;
  const isObject = (item: unknown) => typeof item === 'object' && item !== null && !Array.isArray(item);
  if (!Array.isArray(items) || !items.every(isObject)) return 'wrong-type';
  if (!items.flatMap(Object.keys).every((name) => Object.hasOwn(fact.item ?? {}, name))) return 'wrong-type';
  return { items, isComplete: whole.complete !== false };
}

function readNumber(fact: Fact, stated: Stated): Partial<Known> | string {
  if (typeof stated.value !== 'number' || !Number.isFinite(stated.value)) return 'wrong-type';
  const unit = stated.unit ?? '1';
  if (unit !== (fact.unit ?? '1')) return 'wrong-unit';
  const value = toStep(fact, stated.value);
  const [lowest, highest] = fact.limits ?? [-Infinity, Infinity];
  if (value < lowest || value > highest) return 'impossible';
  if (fact.usual && (value < fact.usual[0] || value > fact.usual[1]) && stated.confirmed !== true)
    return 'unusual';
  if (stated.comparator?.startsWith('<')) return { low: lowest, high: value };
  if (stated.comparator?.startsWith('>')) return { low: value, high: highest };
  return { low: value, high: value };
}

function readAnswers(fact: Fact, codes: CodeList, value: unknown): Partial<Known> | string {
  const plain = Array.isArray(value);
  const { yes = [], no = [] } = (plain ? { yes: value } : value) as { yes?: string[]; no?: string[] };
  if (typeof value !== 'object' || ![...yes, ...no].every((code) => Object.hasOwn(codes, code)))
    return 'wrong-type';
  if (yes.some((code) => no.includes(code))) return 'conflicting';
  const unnamed: Truth = plain && fact.unlisted === 'no' ? 'false' : 'unknown';
  const answer = (code: string): Truth =>
    yes.includes(code) ? 'true' : no.includes(code) ? 'false' : unnamed;
  return { answers: Object.fromEntries(Object.keys(codes).map((code) => [code, answer(code)])) };
}

/** An instant or day that lies before one that it may not lie before: neither can be trusted. */
export function outOfOrder(
  fact: Fact,
  known: Known,
  others: readonly { fact: Fact; known: Known }[],
): boolean {
  return others.some(
    (other) =>
      (fact.notBefore === other.fact.id && known.high < other.known.low) ||
      (other.fact.notBefore === fact.id && other.known.high < known.low),
  );
}
