import { existsSync, realpathSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { type Diagnostic, type Library, readLibrary } from '@dwellset/authoring';
import { CannotRun } from '../cannotRun.ts';
import { readFolder } from './readFolder.ts';

/** The rule documents that a command works with, and where they lie. */
export interface Policies {
  readonly folder: string;
  /** Path within the policies → text. */
  readonly files: ReadonlyMap<string, string>;
  readonly library: Library;
  /** Name of the hospital's folder, where one was asked for. */
  readonly hospital?: string;
  /** Where a document lies on disk. */
  readonly file: (path: string) => string;
  /** The file a document came from, as a reader at this prompt would name it. */
  readonly shown: (path: string) => string;
}

const isFolder = (path: string): boolean => existsSync(path) && statSync(path).isDirectory();

/** A path as seen from where the command runs, where that is shorter than the whole path. */
export function fromHere(path: string): string {
  const near = relative(process.cwd(), path);
  return near !== '' && !near.startsWith('..') ? near : path;
}

/** The policies that the package of rule documents brings along. */
function shippedFolder(): string {
  try {
    return dirname(createRequire(import.meta.url).resolve('@dwellset/policies/package.json'));
  } catch {
    throw new CannotRun(
      'the package @dwellset/policies is not installed; name a folder with `--policies DIR`',
    );
  }
}

export function policiesFolder(given: string | undefined): string {
  if (given === undefined) return realpathSync(shippedFolder());
  const folder = resolve(given);
  if (!isFolder(folder)) throw new CannotRun(`${given}: no such folder`);
  if (!isFolder(join(folder, 'facts'))) {
    throw new CannotRun(`${given}: is no policies folder, it has no folder \`facts\``);
  }
  return realpathSync(folder);
}

/** A hospital is named by its folder, or by its name among the hospitals of the policies. */
function hospitalFolder(given: string, folder: string): string {
  for (const candidate of [resolve(given), join(folder, 'hospitals', given)]) {
    if (isFolder(candidate)) return realpathSync(candidate);
  }
  throw new CannotRun(`${given}: no such hospital folder`);
}

export function readPolicies(given: string | undefined, hospital?: string): Policies {
  const folder = policiesFolder(given);
  const files = readFolder(folder, fromHere(folder));
  const inside = (path: string) => join(folder, path);
  const made = (
    texts: ReadonlyMap<string, string>,
    file: (path: string) => string,
    name?: string,
  ): Policies => ({
    folder,
    files: texts,
    library: readLibrary(texts),
    file,
    shown: (path) => fromHere(file(path)),
    ...(name === undefined ? {} : { hospital: name }),
  });
  if (hospital === undefined) return made(files, inside);
  const own = hospitalFolder(hospital, folder);
  const name = basename(own);
  if (own.startsWith(join(folder, 'hospitals') + sep)) return made(files, inside, name);
  // A hospital's own folder stands among the policies as if it lay there, instead of one with its name.
  const place = `hospitals/${name}/`;
  const merged = new Map([...files].filter(([path]) => !path.startsWith(place)));
  for (const [path, text] of readFolder(own, fromHere(own))) merged.set(place + path, text);
  const file = (path: string) =>
    path.startsWith(place) ? join(own, path.slice(place.length)) : inside(path);
  return made(merged, file, name);
}

export const placed = (policies: Policies, diagnostic: Diagnostic): Diagnostic => ({
  ...diagnostic,
  path: policies.shown(diagnostic.path),
});
