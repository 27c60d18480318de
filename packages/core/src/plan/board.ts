import { type Inputs, interval, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import { derive } from '../facts/derive.ts';
import type { FactSlot, FactTable } from '../facts/factTable.ts';
import { isOpen } from '../facts/plain.ts';
import type { Reading } from '../facts/reading.ts';
import { readSupplied } from '../facts/supplied.ts';
import type { StockItem } from '../release/release.ts';
import { type LeafTest, leafTruth } from './leaf.ts';
import type { Blank, PlanSet, Program } from './plan.ts';

type Row = readonly (Reading | undefined)[];

/** The stock lists of all sets side by side; an option is known by its number in that row. */
interface StockList {
  readonly set: string;
  readonly kind: string;
  readonly items: readonly StockItem[];
  readonly first: number;
}

/** A fact that follows from the option and the patient, and the planes of the leaves over it. */
interface MovingFact {
  readonly slot: FactSlot;
  readonly leaves: readonly { readonly plane: number; readonly test: LeafTest }[];
}

/**
 * The options of all stock lists judged at once: of every leaf and gate that looks at an option two rows of bits,
 * certainly true and possibly true, a bit an option. What labels and tables say of them is in `blank` before there
 * is a case.
 */
export interface Board {
  readonly lists: readonly StockList[];
  readonly words: number;
  /** Place in the table of truths of each plane. */
  readonly places: readonly number[];
  /** Gates in order: [op, plane, count, …inputs]; an input below zero is `~place` of a truth of the patient. */
  readonly gates: Int32Array;
  readonly blank: Int32Array;
  readonly moving: readonly MovingFact[];
  /** What is read of each option beside a patient of whom nothing is said. */
  readonly rows: readonly Row[];
}

/**
 * Lays out the stock of a plan. Nothing where what is read of an option depends on the moment of the case, or where
 * something is wrong with it: its options are then read one by one.
 */
export function boardOf(
  sets: readonly PlanSet[],
  facts: FactTable,
  option: Program,
  patient: Blank,
): Board | undefined {
  const lists: StockList[] = [];
  let count = 0;
  for (const { release, stock } of sets) {
    for (const [kind, items] of Object.entries(stock)) {
      lists.push({ set: release.id, kind, items, first: count });
      count += items.length;
    }
  }
  const timeless = facts.base.every(
    ({ whole, staleAfter, fact }) => whole && !staleAfter && fact.type !== 'list',
  );
  if (count === 0 || !timeless || facts.ordered.length > 0) return undefined;
  const rows: Row[] = [];
  for (const item of lists.flatMap(({ items }) => items)) {
    const row = rowOf(item, facts, patient.row);
    if (!row) return undefined;
    rows.push(row);
  }
  const planeAt = new Map<number, number>();
  const planeOf = (place: number): number => {
    if (!planeAt.has(place)) planeAt.set(place, planeAt.size);
    return planeAt.get(place)!;
  };
  const leaves = option.leaves.map(({ at, place, test }) => ({ plane: planeOf(at), place, test }));
  const gates: number[] = [];
  for (let next = 0; next < option.gates.length; ) {
    const [op, at, inputs] = option.gates.subarray(next, next + 3) as unknown as [number, number, number];
    const from = [...option.gates.subarray(next + 3, next + 3 + inputs)];
    gates.push(op, 0, inputs, ...from.map((place) => planeAt.get(place) ?? ~place));
    gates[gates.length - inputs - 2] = planeOf(at);
    next += 3 + inputs;
  }
  const words = (count + 31) >>> 5;
  const blank = new Int32Array(planeAt.size * 2 * words);
  for (const { plane, place, test } of leaves) {
    rows.forEach((row, n) => {
      if (row[place]) mark(blank, words, plane, n, leafTruth(test, row[place]));
    });
  }
  const moving = facts.derived
    .filter((slot) => restsOnPatient(slot, facts))
    .map((slot) => ({ slot, leaves: leaves.filter(({ place }) => place === slot.place) }));
  return { lists, words, places: [...planeAt.keys()], gates: Int32Array.from(gates), blank, moving, rows };
}

/** Puts down what a leaf is for one option. */
export function mark(planes: Int32Array, words: number, plane: number, n: number, truth: number): void {
  const [at, bit] = [plane * 2 * words + (n >>> 5), 1 << (n & 31)];
  if (truth & 1) planes[at]! |= bit;
  else planes[at]! &= ~bit;
  if (truth & 2) planes[at + words]! |= bit;
  else planes[at + words]! &= ~bit;
}

const restsOnPatient = (slot: FactSlot, facts: FactTable): boolean =>
  slot.derivation!.places.some(
    (place) =>
      place < facts.first ||
      facts.derived.some((inner) => inner.place === place && restsOnPatient(inner, facts)),
  );

/** Reads one item; nothing where a fact is refused, or looks at the moment. */
function rowOf({ facts: stated }: StockItem, facts: FactTable, patient: Row): Row | undefined {
  // What rests on an instant of the patient is worked out for each case.
  const row = patient.map((reading) => (isOpen(reading) ? undefined : reading));
  for (const slot of facts.base) {
    const raw: unknown = Object.hasOwn(stated, slot.fact.id) ? stated[slot.fact.id] : undefined;
    if (typeof raw === 'object' && raw !== null && 'at' in raw) return undefined;
    const { reading, refusal, confirmedUnusual } = readSupplied(slot, raw, true, TIMELESS);
    if (refusal || confirmedUnusual) return undefined;
    row[slot.place] = reading;
  }
  let looked = false;
  const inputs: Inputs = {
    reading: (id) => row[facts.places.get(id)!]!,
    parameter: (id) => facts.parameters.get(id)!,
    table: (id) => facts.tables.get(id)!,
    codes: (list) => facts.codes.get(list)!,
    conclusion: () => NOTHING_CONCLUDED,
    get asOf() {
      looked = true;
      return interval(0, 0);
    },
    get zone() {
      looked = true;
      return 'UTC';
    },
  };
  for (const slot of facts.derived) {
    if (Object.hasOwn(stated, slot.fact.id) || slot.whole === undefined) return undefined;
    if (slot.derivation!.places.some((place) => row[place] === undefined)) continue;
    const reading = derive(slot, inputs);
    if (looked || reading.cause === 'impossible') return undefined;
    row[slot.place] = reading;
  }
  return row;
}

const TIMELESS = { asOf: Infinity, zone: 'UTC', recordedAt: undefined, recordedInstant: undefined };
