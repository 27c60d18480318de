import type { Constant } from '../release/condition.ts';
import type { Derivation, Fact, ItemField } from '../release/fact.ts';
import type { Table } from '../release/parameter.ts';
import type { DerivationKind } from './derivations/kind.ts';
import { kindOf } from './derivations/kinds.ts';
import type { PlainReading } from './plain.ts';
import type { Reader } from './reader.ts';
import { type Bounds, domain, type Reading } from './reading.ts';
import { parseDuration } from './time.ts';
import { FALSE, TRUE, UNKNOWN } from './truth.ts';

/** One fact, with all that reading it needs and that no case changes. */
export interface FactSlot {
  readonly fact: Fact;
  /** Its place among the readings of a case. */
  readonly place: number;
  readonly group: string;
  readonly codes: readonly string[];
  /** Milliseconds after which it goes stale. */
  readonly staleAfter: number | undefined;
  /** The whole domain; a date-time has one only beside the moment of a case. */
  readonly whole: Bounds | undefined;
  /** Bounds of each code, or of true and false, shared by all cases. */
  readonly single: ReadonlyMap<string, Bounds>;
  /** Readings of values that cases state and say nothing else of; of lists of codes, by the bits of the answers. */
  readonly plain: Map<string | number, PlainReading>;
  /** What is read where the case says nothing, and where somebody looked and found nothing. */
  readonly silent: Reading | undefined;
  readonly empty: Reading | undefined;
  /** Of a list: its fields, each after those it follows from. */
  readonly fields: readonly FactSlot[];
  readonly derivation: SlotDerivation | undefined;
}

interface SlotDerivation {
  readonly from: Derivation;
  readonly kind: DerivationKind<Derivation>;
  /** The facts it reads, and their places. */
  readonly inputs: readonly string[];
  readonly places: readonly number[];
}

/** The facts a plan reads, each after the facts it is derived from, and the tables and choices they need. */
export interface FactTable {
  readonly facts: readonly Fact[];
  readonly slots: readonly FactSlot[];
  /** Place of the first. */
  readonly first: number;
  /** Those that a case states, those that follow from others, and those of a group that may have been searched. */
  readonly base: readonly FactSlot[];
  readonly derived: readonly FactSlot[];
  readonly groups: ReadonlyMap<string, readonly FactSlot[]>;
  /** Instants of which the first may not lie before the second. */
  readonly ordered: readonly (readonly [later: FactSlot, earlier: FactSlot])[];
  /** Places of all facts of the plan, those of its options behind those of the patient, and what stands there. */
  readonly places: ReadonlyMap<string, number>;
  readonly byPlace: readonly FactSlot[];
  /** Readers that have read a case and may read the next. */
  readonly spare: Reader[];
  readonly codes: ReadonlyMap<string, readonly string[]>;
  readonly parameters: ReadonlyMap<string, Constant>;
  readonly tables: ReadonlyMap<string, Table>;
}

type Codes = FactTable['codes'];

type Shared = Pick<FactTable, 'codes' | 'parameters' | 'tables'>;

/** The facts of the patient and those of the options as two tables over one row of places. */
export function factTables(
  patient: readonly Fact[],
  option: readonly Fact[],
  shared: Shared,
): { readonly patient: FactTable; readonly option: FactTable } {
  const facts = [...patient, ...option];
  const places = new Map(facts.map(({ id }, place) => [id, place]));
  const slots = facts.map((fact, place) => slotOf(fact, place, shared.codes, places));
  const table = (own: readonly FactSlot[]): FactTable => ({
    ...shared,
    places,
    byPlace: slots,
    first: own[0]?.place ?? 0,
    spare: [],
    slots: own,
    base: own.filter(({ derivation }) => derivation === undefined),
    derived: own.filter(({ derivation }) => derivation !== undefined),
    groups: byGroup(own),
    facts: own.map(({ fact }) => fact),
    ordered: own.flatMap((slot): [FactSlot, FactSlot][] => {
      const earlier = slots[places.get(slot.fact.notBefore ?? '') ?? -1];
      if (earlier === undefined || slot.derivation !== undefined) return [];
      // What follows from other facts is worked out after the order is looked at.
      return earlier.derivation !== undefined && own.includes(earlier) ? [] : [[slot, earlier]];
    }),
  });
  return { patient: table(slots.slice(0, patient.length)), option: table(slots.slice(patient.length)) };
}

function byGroup(slots: readonly FactSlot[]): FactTable['groups'] {
  const groups = new Map<string, FactSlot[]>();
  for (const slot of slots) {
    if (slot.derivation !== undefined) continue;
    const group = groups.get(slot.group);
    if (group) group.push(slot);
    else groups.set(slot.group, [slot]);
  }
  return groups;
}

/** Prepares one fact, or one field of a list, for reading. */
function slotOf(fact: Fact, place: number, codes: Codes, places: FactTable['places']): FactSlot {
  const own = fact.codes === undefined ? [] : (codes.get(fact.codes) ?? []);
  // What is not yet known of an instant ends at the moment of the case.
  const whole = fact.type === 'date-time' ? undefined : domain(fact, own, Infinity);
  const words = fact.type === 'boolean' ? ['true', 'false'] : fact.type === 'code' ? own : [];
  const single = new Map(
    words.map((word): [string, Bounds] => [word, { kind: 'possible', possible: [word] }]),
  );
  return {
    fact,
    place,
    group: fact.id.slice(0, fact.id.indexOf('.')),
    codes: own,
    staleAfter: fact.staleAfter === undefined ? undefined : (parseDuration(fact.staleAfter) ?? 0),
    whole,
    single,
    plain: new Map(
      [...single].map(([word, bounds], plain) => [word, { fact, bounds, recorded: TRUE, plain }]),
    ),
    silent: whole && { fact, bounds: whole, recorded: UNKNOWN, cause: 'not-supplied' },
    empty: whole && { fact, bounds: whole, recorded: FALSE, cause: 'nothing-recorded' },
    fields: fact.type === 'list' ? fieldsOf(fact.item ?? {}, codes) : [],
    derivation: fact.from && derivationOf(fact.from, places),
  };
}

function derivationOf(from: Derivation, places: FactTable['places']): SlotDerivation {
  const kind = kindOf(from);
  const inputs = kind.facts(from);
  return { from, kind, inputs, places: inputs.flatMap((id) => places.get(id) ?? []) };
}

/** Fields as facts of their own, in an order in which each comes after those it follows from. */
function fieldsOf(item: Readonly<Record<string, ItemField>>, codes: Codes): FactSlot[] {
  const ordered = new Map<string, ItemField>();
  const visit = (id: string, open: readonly string[]): void => {
    const field = item[id];
    if (field === undefined || ordered.has(id) || open.includes(id)) return;
    if (field.from) for (const input of kindOf(field.from).facts(field.from)) visit(input, [...open, id]);
    ordered.set(id, field);
  };
  for (const id of Object.keys(item)) visit(id, []);
  return [...ordered].map(([id, field], place) =>
    slotOf({ question: field.title, ...field, id }, place, codes, NO_PLACES),
  );
}

/** Fields of an item are looked up in the item. */
const NO_PLACES: FactTable['places'] = new Map();

/** Everything the value may be when nothing is known. */
export const wholeOf = (slot: FactSlot, asOf: number): Bounds =>
  slot.whole ?? domain(slot.fact, slot.codes, asOf);
