import type { DocumentKind, DocumentOf } from '../documents/kinds.ts';
import { baseName, placed } from './placed.ts';
import type { LibraryDocument, LibrarySet, Placed } from './shape.ts';

/** A set is a folder with a sound `ruleset.json`. */
export function indexSets(
  documents: readonly LibraryDocument[],
  unsound: Set<string>,
): Map<string, LibrarySet> {
  const sets = new Map<string, LibrarySet>();
  for (const document of documents) {
    const ruleSet = placed(document, 'rule-set');
    const id = document.path.split('/')[0]!;
    if (ruleSet === undefined || document.path !== `${id}/ruleset.json`) continue;
    const mine = documents.filter(({ path }) => path.startsWith(`${id}/`));
    const index = <K extends DocumentKind>(kind: K): Map<string, Placed<DocumentOf<K>>> =>
      new Map(
        mine.flatMap((d) => {
          const found = placed(d, kind);
          if (d.kind === kind && !found) unsound.add(`${id}/${baseName(d.path)}`);
          return found ? [[baseName(d.path), found] as const] : [];
        }),
      );
    sets.set(id, {
      id,
      ruleSet,
      rules: inOrder(index('rule'), ruleSet.value.rules),
      vignettes: inOrder(index('vignettes'), ruleSet.value.rules),
      stock: inOrder(index('stock'), ruleSet.value.stock ?? []),
    });
  }
  return sets;
}

function inOrder<T>(index: ReadonlyMap<string, T>, order: readonly string[]): Map<string, T> {
  const first = order.flatMap((id) => (index.has(id) ? [[id, index.get(id)!] as const] : []));
  return new Map([...first, ...index]);
}
