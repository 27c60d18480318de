/// <reference types="node" />
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { adoptionOf, readLibrary, releasesFor } from '@dwellset/authoring';
import { type Case, compile, type Plan } from '@dwellset/core';

const folder = fileURLToPath(new URL('../../policies/', import.meta.url));
const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter(
    (path) => path.endsWith('.json') && !/^(node_modules|dist)\//.test(path) && path !== 'package.json',
  );

/** The shipped rule documents, as they lie on disk. */
export const library = readLibrary(new Map(paths.map((path) => [path, readFileSync(folder + path, 'utf8')])));

/** The plan of a hospital's adopted rules, or of the published drafts, with the sets whose conclusions they read. */
export function planOf(sets: readonly string[], hospital?: string): Plan {
  const options = hospital === undefined ? {} : { hospital };
  const found = sets.flatMap((set) => releasesFor(library, set, options));
  if (found.length < sets.length) throw new Error(`not all of ${sets.join(', ')} can be built`);
  const releases = [...new Map(found.map((release) => [release.id, release])).values()];
  const adoption = hospital === undefined ? undefined : adoptionOf(library, hospital);
  return adoption === undefined ? compile(releases, { allow: ['draft'] }) : compile(releases, { adoption });
}

/** A case of an invented hospital. */
export const caseAt = (hospital: string, name: string): Case =>
  JSON.parse(readFileSync(`${folder}hospitals/${hospital}/cases/${name}.case.json`, 'utf8')) as Case;
