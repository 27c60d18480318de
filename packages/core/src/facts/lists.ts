import type { Derivation } from '../release/fact.ts';
import { clip } from './bounds.ts';
import { type Inputs, withReadings } from './derivations/kind.ts';
import { type FactSlot, wholeOf } from './factTable.ts';
import { isObject } from './isObject.ts';
import type { Moment } from './moment.ts';
import { type ItemRead, isExact, type ListRead, type Reading } from './reading.ts';
import { readSupplied } from './supplied.ts';
import type { Refusal } from './value.ts';

/** More entries than a chart of one patient can hold are a mistake. */
const MOST_ITEMS = 5000;

/** What was read of a list, with the refusals of single fields; or why the whole list is refused. */
export type ListReadResult = { readonly bounds: ListRead; readonly refusals: readonly Refusal[] } | Refusal;

/** Reads the entries of a list: `[]` is known to hold none; an unreadable field stays unknown, its item counts. */
export function readList({ fields }: FactSlot, raw: unknown, inputs: Inputs, moment: Moment): ListReadResult {
  const whole = Array.isArray(raw) ? { items: raw, complete: true } : raw;
  if (!isObject(whole) || !Array.isArray(whole.items) || !whole.items.every(isObject)) {
    return { code: 'wrong-type', message: 'expected a list of entries' };
  }
  const entries = whole.items as readonly Record<string, unknown>[];
  if (entries.length > MOST_ITEMS)
    return { code: 'impossible', message: `it has more than ${MOST_ITEMS} entries` };
  const foreign = foreignKey(entries, fields);
  if (foreign !== undefined)
    return { code: 'wrong-type', message: `${foreign} is not a field of its entries` };
  const refusals: Refusal[] = [];
  let item = new Map<string, Reading>();
  const own = withReadings(inputs, (id) => item.get(id)!);
  const items = entries.map((entry, index): ItemRead => {
    item = new Map();
    for (const field of fields) {
      const { id, from } = field.fact;
      const value = Object.hasOwn(entry, id) ? entry[id] : undefined;
      if (from !== undefined && !Object.hasOwn(entry, id)) {
        item.set(id, deriveField(field, from, own));
        continue;
      }
      const { reading, refusal } = readSupplied(field, value, false, moment);
      if (refusal) refusals.push({ ...refusal, message: `entry ${index + 1}, ${id}: ${refusal.message}` });
      item.set(id, reading);
    }
    return item;
  });
  return { bounds: { kind: 'list', items, complete: whole.complete !== false }, refusals };
}

function foreignKey(
  entries: readonly Record<string, unknown>[],
  fields: readonly FactSlot[],
): string | undefined {
  for (const entry of entries) {
    for (const key in entry) if (!fields.some(({ fact }) => fact.id === key)) return key;
  }
  return undefined;
}

/** A field that follows from other fields of its item. */
function deriveField(field: FactSlot, from: Derivation, inputs: Inputs): Reading {
  const { fact, derivation } = field;
  const { bounds, recorded } = derivation!.kind.evaluate(from, fact, inputs);
  const whole = wholeOf(field, inputs.asOf.high);
  const kept = clip(bounds, whole, fact.step) ?? whole;
  return {
    fact,
    bounds: kept,
    recorded,
    ...(isExact(kept) ? {} : { cause: 'derived' as const }),
    inputs: derivation!.inputs,
  };
}
