import type { Fact, ItemField } from '../release/fact.ts';
import { clip } from './bounds.ts';
import type { Inputs } from './derivations/kind.ts';
import { kindOf } from './derivations/kinds.ts';
import { domain, type ItemRead, isExact, type ListRead, type Reading } from './reading.ts';
import { type Moment, type Refusal, readSupplied } from './supplied.ts';

/** More entries than a chart of one patient can hold are a mistake. */
const MOST_ITEMS = 5000;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The field of an item as a fact of its own, so that it is read by the same rules. */
const fieldAsFact = (id: string, field: ItemField): Fact => ({ question: field.title, ...field, id });

type CodesOf = (list: string | undefined) => readonly string[];

/** What was read of a list, with the refusals of single fields; or why the whole list is refused. */
export type ListReadResult = { readonly bounds: ListRead; readonly refusals: readonly Refusal[] } | Refusal;

/** Reads the entries of a list: `[]` is known to hold none; an unreadable field stays unknown, its item counts. */
export function readList(
  fact: Fact,
  raw: unknown,
  codesOf: CodesOf,
  inputs: Inputs,
  moment: Moment,
): ListReadResult {
  const whole = Array.isArray(raw) ? { items: raw, complete: true } : raw;
  if (!isObject(whole) || !Array.isArray(whole.items) || !whole.items.every(isObject)) {
    return { code: 'wrong-type', message: 'expected a list of entries' };
  }
  const fields = inReadingOrder(fact.item ?? {});
  const known = new Set(fields.map(([id]) => id));
  const entries = whole.items as readonly Record<string, unknown>[];
  if (entries.length > MOST_ITEMS)
    return { code: 'impossible', message: `it has more than ${MOST_ITEMS} entries` };
  const foreign = entries.flatMap((entry) => Object.keys(entry)).find((key) => !known.has(key));
  if (foreign !== undefined)
    return { code: 'wrong-type', message: `${foreign} is not a field of its entries` };
  const refusals: Refusal[] = [];
  const items = entries.map((entry, index): ItemRead => {
    const item = new Map<string, Reading>();
    for (const [id, field] of fields) {
      const own = fieldAsFact(id, field);
      if (field.from !== undefined && !Object.hasOwn(entry, id)) {
        item.set(id, deriveField(own, item, codesOf, inputs));
        continue;
      }
      const value = Object.hasOwn(entry, id) ? entry[id] : undefined;
      const { reading, refusal } = readSupplied(own, codesOf(field.codes), value, false, moment);
      if (refusal) refusals.push({ ...refusal, message: `entry ${index + 1}, ${id}: ${refusal.message}` });
      item.set(id, reading);
    }
    return item;
  });
  return { bounds: { kind: 'list', items, complete: whole.complete !== false }, refusals };
}

/** Fields in an order in which each comes after those it follows from, whatever the order of their keys. */
function inReadingOrder(item: Readonly<Record<string, ItemField>>): [string, ItemField][] {
  const ordered = new Map<string, ItemField>();
  const visit = (id: string, open: readonly string[]): void => {
    const field = item[id];
    if (field === undefined || ordered.has(id) || open.includes(id)) return;
    if (field.from) for (const input of kindOf(field.from).facts(field.from)) visit(input, [...open, id]);
    ordered.set(id, field);
  };
  for (const id of Object.keys(item)) visit(id, []);
  return [...ordered];
}

/** A field that follows from other fields of its item. */
function deriveField(fact: Fact, item: ItemRead, codesOf: CodesOf, inputs: Inputs): Reading {
  const own: Inputs = { ...inputs, reading: (id) => item.get(id)! };
  const kind = kindOf(fact.from!);
  const { bounds, recorded } = kind.evaluate(fact.from!, fact, own);
  const whole = domain(fact, codesOf(fact.codes), inputs.asOf.high);
  const kept = clip(bounds, whole, fact.step) ?? whole;
  return {
    fact,
    bounds: kept,
    recorded,
    ...(isExact(kept) ? {} : { cause: 'derived' as const }),
    inputs: kind.facts(fact.from!),
  };
}
