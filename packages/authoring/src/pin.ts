import { digest } from '@dwellset/core';
import { applyEdits, findNodeAtLocation, modify, parseTree } from 'jsonc-parser';
import { amend } from './amend/amend.ts';
import { buildRelease } from './build/buildRelease.ts';
import { gather } from './build/gather.ts';
import { partsOf } from './build/parts.ts';
import type { Diagnostic } from './diagnostic.ts';
import type { Library } from './library/shape.ts';
import { readLibrary } from './library.ts';

export interface Pinned {
  /** Path → text of the documents that name releases, with the versions and digests of today. */
  readonly files: ReadonlyMap<string, string>;
  /** Why a digest could not be filled in; nothing is pinned then. */
  readonly refused: readonly Diagnostic[];
}

/** Stands in for a digest until it is known, so that a document without one can be read. */
const NO_DIGEST = '0'.repeat(64);

/**
 * Fills in the versions and digests that a hospital's amendment and adoption name: of the published sets in the
 * amendment, of the amended ones in the adoption. Only those texts change; the formatting stays.
 */
export function pin(files: ReadonlyMap<string, string>, hospital: string): Pinned {
  const folder = `hospitals/${hospital}`;
  const [amendmentPath, adoptionPath] = [`${folder}/amendment.json`, `${folder}/adoption.json`];
  const work = new Map(files);
  const fill = (path: string, list: string, digests: (id: string) => Filled | undefined) => {
    const text = work.get(path);
    if (text !== undefined) work.set(path, fillIn(text, list, digests));
  };
  const { sets } = readLibrary(files);
  const blank = (id: string): Filled | undefined => {
    const version = sets.get(id)?.ruleSet.value.version;
    return version === undefined ? undefined : { version, digest: NO_DIGEST };
  };
  fill(amendmentPath, 'amends', blank);
  fill(adoptionPath, 'releases', blank);
  const unpinned = readLibrary(work);
  fill(amendmentPath, 'amends', (id) => publishedDigest(unpinned, id));
  const library = readLibrary(work);
  const refused = amend(library, hospital, { anyBase: true })?.refused ?? [];
  if (refused.length > 0) return { files: new Map(), refused };
  const problems: Diagnostic[] = [];
  fill(adoptionPath, 'releases', (id) => {
    const built = buildRelease(library, id, { hospital });
    problems.push(...(built.refused ?? []));
    return built.release && { version: built.release.version, digest: built.digest! };
  });
  if (problems.length > 0) return { files: new Map(), refused: problems };
  const changed = [amendmentPath, adoptionPath].filter((path) => work.has(path));
  return { files: new Map(changed.map((path) => [path, work.get(path)!])), refused: [] };
}

interface Filled {
  readonly version: string;
  readonly digest: string;
}

function publishedDigest(library: Library, id: string): Filled | undefined {
  const set = library.sets.get(id);
  const release = set && gather(partsOf(library, set)).release;
  return release && { version: release.version, digest: digest(release) };
}

/** Entries name their set as `set` (an amendment) or `id` (an adoption). */
function fillIn(text: string, list: string, digests: (id: string) => Filled | undefined): string {
  const root = parseTree(text);
  const entries = (root && findNodeAtLocation(root, [list])?.children) ?? [];
  let result = text;
  entries.forEach((entry, index) => {
    const id = (findNodeAtLocation(entry, ['set']) ?? findNodeAtLocation(entry, ['id']))?.value as unknown;
    const filled = typeof id === 'string' ? digests(id) : undefined;
    if (filled === undefined) return;
    const options = { formattingOptions: { insertSpaces: true, tabSize: 2 } };
    for (const key of ['version', 'digest'] as const) {
      result = applyEdits(result, modify(result, [list, index, key], filled[key], options));
    }
  });
  return result;
}
