import { existsSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { parseSource, readReleaseFile, type Side } from '@dwellset/authoring';
import type { Release } from '@dwellset/core';
import { refusalWords } from '@dwellset/wording';
import { CannotRun } from './cannotRun.ts';
import { type Policies, readPolicies } from './files/policies.ts';
import { readText } from './files/readText.ts';
import { readBytes } from './files/releaseFiles.ts';
import { releaseOf, sideFor } from './planOf.ts';

/** One side of a comparison: how it is called, and its releases by set. */
export interface SideNamed {
  readonly name: string;
  readonly sets: ReadonlyMap<string, Side>;
  /** Where its vignettes and wards are, if it is a tree of documents. */
  readonly policies?: Policies;
}

/** A release file, a hospital's folder, a policies folder, or the name of a rule set. */
export function sideOf(given: string, policies: string | undefined, hospital?: string): SideNamed {
  const path = resolve(given);
  if (existsSync(path) && statSync(path).isFile()) return fileSide(path, given);
  if (existsSync(join(path, 'amendment.json')) || existsSync(join(path, 'adoption.json'))) {
    return treeSide(readPolicies(policies, given), given);
  }
  if (existsSync(join(path, 'facts'))) return treeSide(readPolicies(given, hospital), given);
  const tree = readPolicies(policies, hospital);
  const set = basename(path);
  if (!tree.library.sets.has(set)) releaseOf(tree, given);
  return treeSide(tree, given, set);
}

/** Sets that a tree of documents builds; one that does not build stops the comparison. */
function treeSide(policies: Policies, name: string, only?: string): SideNamed {
  const ids = [...policies.library.sets.keys()].filter((id) => only === undefined || id === only);
  return { name, sets: new Map(ids.map((id) => [id, sideFor(policies, id)])), policies };
}

/** A release that reads conclusions needs its neighbours: they lie in the same folder, and are told by their digest. */
function fileSide(path: string, shown: string): SideNamed {
  const release = readRelease(path, shown);
  const read = (release.reads ?? []).map(({ id, version }) =>
    readRelease(join(dirname(path), `${id}-${version}.json`), `${id}-${version}.json`),
  );
  return { name: shown, sets: new Map([[release.id, [release, ...read]]]) };
}

function readRelease(path: string, shown: string): Release {
  const opened = readReleaseFile(readBytes(path, shown));
  if (opened.refused === undefined) return opened.file.release;
  if (opened.refused !== 'no-release-file') throw new CannotRun(`${shown}: ${refusalWords(opened.refused)}`);
  const { value, problems } = parseSource(shown, readText(path, shown));
  const release = value as Partial<Release> | null;
  if (problems.length > 0 || release?.$schema !== 'urn:dwellset:release:1') {
    throw new CannotRun(`${shown}: is no release`);
  }
  return release as Release;
}
