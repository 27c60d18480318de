import type { FactSlot } from '../facts/factTable.ts';
import type { Plan } from '../plan/plan.ts';
import { sameJson } from '../release/digest.ts';
import type { Fact } from '../release/fact.ts';

/** Whether a fact is read alike by both plans from every case. */
type Alike = (fact: string) => boolean;

const known = new WeakMap<Plan, WeakMap<Plan, Alike>>();

/**
 * Compares what the facts of two plans mean when they are read: titles and questions aside, what a fact is, all that
 * it follows from, and the local choices and tables that stand in between. So an edited rule leaves what was read of
 * ten thousand cases standing. Worked out once for two plans, fact by fact as it is asked for.
 */
export function readAlike(one: Plan, other: Plan): Alike {
  const ofOne = known.get(one) ?? new WeakMap<Plan, Alike>();
  known.set(one, ofOne);
  const alike = ofOne.get(other) ?? comparing(one, other);
  ofOne.set(other, alike);
  return alike;
}

function comparing(one: Plan, other: Plan): Alike {
  const found = new Map<string, boolean>();
  const alike: Alike = (id) => {
    const sofar = found.get(id);
    if (sofar !== undefined) return sofar;
    const [a, b] = [slotOf(one, id), slotOf(other, id)];
    const is =
      a !== undefined &&
      b !== undefined &&
      sameJson(a.fact, b.fact, SAID) &&
      sameJson(lookedAt(one, a), lookedAt(other, b)) &&
      follows(a);
    found.set(id, is);
    return is;
  };
  const follows = ({ fact, derivation }: FactSlot): boolean =>
    (derivation?.inputs ?? []).every(alike) &&
    (fact.from === undefined || !('conclusion' in fact.from) || concludedAlike(fact.from.conclusion));
  const concludedAlike = (set: string): boolean => {
    const [a, b] = [one, other].map((plan) => plan.sets.find(({ release }) => release.id === set));
    const allowed = [one, other].map((plan) => plan.allowed.has('out-of-period'));
    if (a === undefined || a.digest !== b?.digest || allowed[0] !== allowed[1]) return false;
    // Its conclusion may rest on that of a further set.
    return a.release.facts.every(({ id }) => alike(id));
  };
  return alike;
}

const slotOf = (plan: Plan, id: string): FactSlot | undefined => {
  const { patientFacts } = plan;
  const place = patientFacts.places.get(id);
  return place === undefined ? undefined : patientFacts.slots[place - patientFacts.first];
};

/** What reading a fact looks at, other facts aside. */
function lookedAt({ patientFacts: table }: Plan, { fact, codes }: FactSlot): readonly unknown[] {
  const named = fact.from || fact.item ? namesIn([fact.from, fact.item]) : [];
  return [
    codes,
    ...named.map((id) => [table.parameters.get(id), table.tables.get(id), table.codes.get(id)]),
    // Instants that must keep an order are read together: both are in conflict where they do not.
    ...table.ordered
      .filter((pair) => pair.some((slot) => slot.fact === fact))
      .map((pair) => pair.map(factOf)),
  ];
}

const factOf = ({ fact }: FactSlot): Fact => fact;

/** What is said of a fact to people, and changes nothing about how it is read. */
const SAID: ReadonlySet<string> = new Set(['title', 'question', 'note']);

/** Every text in a derivation or in the fields of a list: ids of local choices, tables and code lists are among them. */
function namesIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return [...new Set(Object.values(value).flatMap(namesIn))].sort();
}
