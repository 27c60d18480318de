import type { z } from 'zod';
import { parameter, table } from './documents/choices.ts';
import { evidence } from './documents/evidence.ts';
import { fact } from './documents/facts.ts';
import { hazard } from './documents/hazards.ts';
import { type DocumentKind, type DocumentOf, documentSchemas, kindOf } from './documents/kinds.ts';
import { source } from './documents/sources.ts';
import { indexCodes, indexEntries } from './library/entries.ts';
import { indexHospitals } from './library/hospitals.ts';
import { placed } from './library/placed.ts';
import { indexSets } from './library/sets.ts';
import type { Library, LibraryDocument } from './library/shape.ts';
import { readSource } from './parse/readSource.ts';

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Folders whose JSON is made from documents, or has nothing to do with them. */
const NOT_DOCUMENTS = /^(releases|dist|node_modules)\/|^package\.json$/;

/**
 * Reads a policies folder, given as path → text with paths relative to it. Pure; never throws: what is wrong with
 * a document is for the check to say.
 */
export function readLibrary(files: ReadonlyMap<string, string>): Library {
  const documents = [...files]
    .filter(([path]) => path.endsWith('.json') && !NOT_DOCUMENTS.test(path))
    .sort(([a], [b]) => compare(a, b))
    .map(([path, text]) => readDocument(path, text));
  return indexed(documents);
}

/** The library with one document put in, or in the place of another; everything else is read but once. */
export function withDocument(library: Library, path: string, text: string): Library {
  const others = library.documents.filter((document) => document.path !== path);
  const documents = [...others, readDocument(path, text)].sort((a, b) => compare(a.path, b.path));
  // Nothing of the published rules rests on what a hospital states.
  if (path.startsWith('hospitals/')) return { ...library, documents, hospitals: indexHospitals(documents) };
  return indexed(documents);
}

function indexed(documents: readonly LibraryDocument[]): Library {
  const unsound = new Set<string>();
  const of = (kind: DocumentKind) => documents.filter((document) => document.kind === kind);
  const entries = <S extends z.ZodType<{ id: string }>>(
    from: readonly LibraryDocument[],
    key: string,
    schema: S,
  ) => indexEntries(from, key, schema, unsound);
  const choices = of('choices');
  const groups = of('facts').sort((a, b) => orderOf(a) - orderOf(b));
  return {
    documents,
    codes: indexCodes(of('codes')),
    extensible: new Set(of('codes').flatMap((d) => placed(d, 'codes')?.value.extensible ?? [])),
    facts: entries(groups, 'facts', fact),
    parameters: entries(choices, 'parameters', parameter),
    tables: entries(choices, 'tables', table),
    sources: entries(of('sources'), 'sources', source),
    evidence: entries(of('evidence'), 'evidence', evidence),
    hazards: entries(of('hazards'), 'hazards', hazard),
    keys: new Map(
      of('key')
        .flatMap((d) => placed(d, 'key') ?? [])
        .map((key) => [key.value.id, key]),
    ),
    accepted: new Map(
      of('accepted')
        .filter(({ path }) => !path.startsWith('hospitals/'))
        .flatMap((d) => placed(d, 'accepted') ?? [])
        .map((document) => [document.value.set, document]),
    ),
    sets: indexSets(documents, unsound),
    hospitals: indexHospitals(documents),
    withdrawals: of('withdrawal').flatMap((d) => placed(d, 'withdrawal')?.value ?? []),
    unsound,
  };
}

/** One document by itself, as a library holds it. */
export function readDocument(path: string, text: string): LibraryDocument {
  const source = readSource(path, text);
  const kind = kindOf(source.value);
  const sound = kind !== undefined && documentSchemas[kind].safeParse(source.value).success;
  return { path, source, ...(kind && { kind }), sound };
}

/** A group without a readable `order` comes last. */
function orderOf(document: LibraryDocument): number {
  const order = (document.source.value as { order?: unknown }).order;
  return typeof order === 'number' ? order : Number.MAX_SAFE_INTEGER;
}

/** Hospitals with documents of their own, by folder name. */
export const hospitals = (library: Library): readonly string[] => [...library.hospitals.keys()];

/** What a hospital takes on, if it says so. */
export const adoptionOf = (library: Library, hospital: string): DocumentOf<'adoption'> | undefined =>
  library.hospitals.get(hospital)?.adoption?.value;
