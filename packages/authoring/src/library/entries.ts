import type { z } from 'zod';
import type { DocumentOf } from '../documents/kinds.ts';
import { placed } from './placed.ts';
import type { Library, LibraryDocument, Placed } from './shape.ts';

/** Lists are read entry by entry, so that one bad entry does not hide its neighbours. */
export function indexEntries<S extends z.ZodType<{ id: string }>>(
  documents: readonly LibraryDocument[],
  key: string,
  schema: S,
  unsound: Set<string>,
): Map<string, Placed<z.infer<S>>> {
  const index = new Map<string, Placed<z.infer<S>>>();
  for (const document of documents) {
    const list = (document.source.value as Record<string, unknown>)[key];
    if (!Array.isArray(list)) continue;
    list.forEach((entry: unknown, at) => {
      const read = schema.safeParse(entry);
      const id = (entry as { id?: unknown } | null)?.id;
      if (!read.success) {
        if (typeof id === 'string') unsound.add(id);
      } else if (!index.has(read.data.id)) {
        index.set(read.data.id, { value: entry as z.infer<S>, document, pointer: `/${key}/${at}` });
      }
    });
  }
  return index;
}

export function indexCodes(documents: readonly LibraryDocument[]): Library['codes'] {
  const index = new Map<string, Placed<DocumentOf<'codes'>['lists'][string]>>();
  for (const document of documents) {
    const codes = placed(document, 'codes');
    for (const [name, list] of Object.entries(codes?.value.lists ?? {})) {
      if (!index.has(name)) index.set(name, { value: list, document, pointer: `/lists/${name}` });
    }
  }
  return index;
}
