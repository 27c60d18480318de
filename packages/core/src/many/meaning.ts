import type { FactTable } from '../facts/factTable.ts';
import type { Plan } from '../plan/plan.ts';
import { canonicalJson } from '../release/digest.ts';

/**
 * What each fact of a plan means when it is read, as text: two plans whose texts for a fact are equal read it alike
 * from every case. So an edited rule leaves what was read of ten thousand cases standing.
 */
export function meanings(plan: Plan): ReadonlyMap<string, string> {
  const known = new Map<string, string>();
  const table: FactTable = plan.patientFacts;
  for (const { fact, derivation } of [...table.slots, ...plan.optionFacts.slots]) {
    const named = namesIn([fact.from, fact.item]);
    const concluded = fact.from && 'conclusion' in fact.from ? fact.from.conclusion : undefined;
    known.set(
      fact.id,
      canonicalJson({
        fact: { ...fact, title: '', question: '', note: '' },
        codes: fact.codes === undefined ? [] : (table.codes.get(fact.codes) ?? []),
        inputs: (derivation?.inputs ?? []).map((id) => known.get(id) ?? id),
        parameters: named.flatMap((id) => (table.parameters.has(id) ? [[id, table.parameters.get(id)]] : [])),
        tables: named.flatMap((id) => (table.tables.has(id) ? [table.tables.get(id)] : [])),
        // Instants that must keep an order are read together: both are in conflict where they do not.
        ordered: table.ordered.flatMap((pair) =>
          pair.some((slot) => slot.fact.id === fact.id) ? pair.map((slot) => slot.fact) : [],
        ),
        concluded:
          concluded === undefined
            ? ''
            : (plan.sets.find(({ release }) => release.id === concluded)?.digest ?? ''),
      } as never),
    );
  }
  return known;
}

/** Every text in a derivation: ids of local choices and tables are among them. */
function namesIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return [...new Set(Object.values(value).flatMap(namesIn))].sort();
}
