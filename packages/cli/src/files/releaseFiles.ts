import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { compareVersions, type ReleaseFile, readReleaseFile } from '@dwellset/authoring';
import type { Release } from '@dwellset/core';
import { refusalWords } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { fromHere } from './policies.ts';
import { whyNot } from './readText.ts';

/** The bytes as they lie on disk: a mark or a line end that a reader would pass over has been changed too. */
export function readBytes(path: string, shown = fromHere(path)): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    throw new CannotRun(`${shown}: ${whyNot(error)}`);
  }
}

/** A release file as it was written; one that was changed since is refused. */
export function releaseFileAt(path: string, shown = fromHere(path)): ReleaseFile {
  const opened = readReleaseFile(readBytes(path, shown));
  if (opened.refused) throw new CannotRun(`${shown}: ${refusalWords(opened.refused)}`);
  return opened.file;
}

/** The file of the newest release of the set before this version. */
export function earlierRelease(
  folder: string,
  { id, version }: Pick<Release, 'id' | 'version'>,
): string | undefined {
  const place = join(folder, 'releases');
  if (!existsSync(place)) return undefined;
  const earlier = readdirSync(place)
    .filter((name) => name.startsWith(`${id}-`) && /^\d+\.\d+\.\d+\.json$/.test(name.slice(id.length + 1)))
    .map((name) => name.slice(id.length + 1, -'.json'.length))
    .filter((other) => compareVersions(other, version) < 0)
    .sort(compareVersions)
    .at(-1);
  return earlier === undefined ? undefined : join(place, `${id}-${earlier}.json`);
}

/** Written once: other bytes under the same name are refused. */
export function writeOnce(file: string, text: string, otherwise: string): void {
  if (existsSync(file)) {
    if (readFileSync(file, 'utf8') === text) return;
    throw new CannotRun(`${fromHere(file)}: ${otherwise}`);
  }
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text, { flag: 'wx' });
}
