import { buildRelease, type Library, readLibrary } from '@dwellset/authoring';
import { choices } from './invented/choices.ts';
import { dictionary } from './invented/dictionary.ts';
import { doc, type Json } from './invented/documents.ts';
import { equipment } from './invented/equipment.ts';
import { hospital } from './invented/hospital.ts';
import { reason } from './invented/reason.ts';
import { removal } from './invented/removal.ts';

/**
 * A small invented policy: an advice set (`removal`), a decision set (`reason`) and a choice set (`equipment`),
 * each with a locked rule, and one hospital with an amendment that holds no changes yet.
 */
export const policy = (): Record<string, Json> => ({
  ...dictionary(),
  ...choices(),
  ...removal(),
  ...reason(),
  ...equipment(),
  ...hospital(),
});

export const filesOf = (documents: Record<string, Json>): Map<string, string> =>
  new Map(Object.entries(documents).map(([path, value]) => [path, `${JSON.stringify(value, null, 2)}\n`]));

export const amendment = (changes: Record<string, readonly Json[]>, rest: Json = {}): Json =>
  doc('amendment', {
    id: 'hollow-2030',
    version: '1.0.0',
    organisation: 'Hollow Hill (invented)',
    approverRole: 'Lead nurse',
    date: '2030-01-01',
    amends: Object.entries(changes).map(([id, list]) => ({
      set: id,
      version: '0.1.0',
      digest: '0'.repeat(64),
      changes: list.map((change) => ({ reason: 'Local reason.', ...change })),
    })),
    ...rest,
  });

export const localPolicy = {
  sources: [
    { id: 'hollow-policy', kind: 'local-policy', body: 'Hollow Hill (invented)', title: 'Catheter policy' },
  ],
  evidence: [
    {
      id: 'hollow-says',
      statement: 'The hospital decided so.',
      from: [{ source: 'hollow-policy', locator: 's. 2', grade: 'ungraded', status: 'read' }],
    },
  ],
};

/** A policy with an amendment of `hollow`, its digests filled in from the published sets. */
export function amendedPolicy(
  changes: Record<string, readonly Json[]>,
  rest: Json = {},
  base: Record<string, Json> = policy(),
): Library {
  const published = readLibrary(filesOf(base));
  const amended = amendment(changes, rest);
  for (const entry of amended.amends as Json[]) {
    entry.digest = buildRelease(published, String(entry.set)).digest ?? entry.digest;
  }
  return readLibrary(filesOf({ ...base, 'hospitals/hollow/amendment.json': amended }));
}

/** The same library, its amendment made for another base. */
export function withBase(
  library: Library,
  base: { readonly version?: string; readonly digest?: string },
): Library {
  const files = new Map(library.documents.map(({ path, source }) => [path, source.text]));
  const path = 'hospitals/hollow/amendment.json';
  const document = JSON.parse(files.get(path)!) as { amends: Json[] };
  Object.assign(document.amends[0]!, base);
  return readLibrary(files.set(path, JSON.stringify(document)));
}
