import type { Change } from '../documents/amendment.ts';
import type { Library, LibraryDocument, LibrarySet } from '../library/shape.ts';
import { childPointer } from '../parse/pointer.ts';
import type { Place } from './shape.ts';

/** A document and a pointer in it, from which pointers to the parts are made. */
export interface Anchor {
  readonly document: LibraryDocument;
  readonly pointer: string;
}

export const below = ({ document, pointer }: Anchor, ...segments: readonly (string | number)[]): Anchor => ({
  document,
  pointer: segments.reduce<string>(childPointer, pointer),
});

export const placeAt = ({ document, pointer }: Anchor): Place => ({
  path: document.path,
  pointer,
  range: document.source.locate(pointer),
});

/** The changes that a hospital makes to a set, each where it stands. */
function changesTo(
  library: Library,
  set: LibrarySet,
  hospital: string | undefined,
): { readonly change: Change; readonly anchor: Anchor }[] {
  const amendment = hospital === undefined ? undefined : library.hospitals.get(hospital)?.amendment;
  if (amendment === undefined) return [];
  return amendment.value.amends.flatMap(({ set: id, changes }, index) =>
    id === set.id
      ? changes.map((change, at) => ({ change, anchor: below(amendment, 'amends', index, 'changes', at) }))
      : [],
  );
}

/** Where a rule of the release stands: in its own document, or in the amendment that brings it in. */
export function anchorOfRule(library: Library, set: LibrarySet, rule: string, hospital?: string): Anchor {
  for (const { change, anchor } of changesTo(library, set, hospital)) {
    if ('replace' in change && change.replace.id === rule) return below(anchor, 'replace');
    if ('add' in change && change.add.id === rule) return below(anchor, 'add');
  }
  return set.rules.get(rule) ?? set.ruleSet;
}

/** Where the stock list of a release stands. */
export function anchorOfStock(library: Library, set: LibrarySet, kind: string, hospital?: string): Anchor {
  for (const { change, anchor } of changesTo(library, set, hospital)) {
    if ('stock' in change && change.stock.of === kind) return below(anchor, 'stock');
  }
  return set.stock.get(kind) ?? set.ruleSet;
}
