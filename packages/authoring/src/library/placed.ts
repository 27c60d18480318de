import type { DocumentKind, DocumentOf } from '../documents/kinds.ts';
import type { LibraryDocument, Placed } from './shape.ts';

/** The document as a whole, if it is a sound one of this kind. */
export function placed<K extends DocumentKind>(
  document: LibraryDocument,
  kind: K,
): Placed<DocumentOf<K>> | undefined {
  if (document.kind !== kind || !document.sound) return undefined;
  return { value: document.source.value as DocumentOf<K>, document, pointer: '' };
}

/** `a/b/c.rule.json` → `c` */
export const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1).replace(/\..*$/, '');
