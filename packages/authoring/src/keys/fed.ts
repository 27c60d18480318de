import type { KeyCase } from '../documents/key.ts';
import type { Library } from '../library/shape.ts';

/** Evidence that a rule, or a position of a local choice, rests on, with all that it derives from. */
export function feeding({ sets, parameters, tables, evidence }: Library): ReadonlySet<string> {
  const ids = new Set<string>();
  const add = (more: readonly string[] | undefined) => {
    for (const id of more ?? []) ids.add(id);
  };
  for (const { rules } of sets.values()) for (const { value } of rules.values()) add(value.evidence);
  for (const { value } of parameters.values()) for (const position of value.positions) add(position.evidence);
  for (const { value } of tables.values()) {
    for (const cell of Object.values(value.rows).flatMap((row) => Object.values(row))) {
      add(cell.evidence);
      for (const position of cell.positions ?? []) add(position.evidence);
    }
  }
  // The set grows while it is walked, so this follows chains to their end.
  for (const id of ids) add(evidence.get(id)?.value.derivedFrom);
  return ids;
}

/** Whether the rules were written from what this case tells: the same row, or the same place of the same source. */
export function isFed(library: Library, fed: ReadonlySet<string>, key: KeyCase, source: string): boolean {
  if (key.row !== undefined) return fed.has(key.row);
  return [...fed].some((id) =>
    library.evidence
      .get(id)
      ?.value.from.some((item) => item.source === source && item.locator === key.locator),
  );
}
