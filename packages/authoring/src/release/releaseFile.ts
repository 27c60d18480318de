import { canonicalJson, digest, type Release } from '@dwellset/core';
import type { SetComparison } from '../compare/shape.ts';
import type { GateResult } from './gates.ts';

/** A release as it is kept: the release itself, what it was held to, and what changed since the one before. */
export interface ReleaseFile {
  readonly $schema: 'urn:dwellset:release-file:1';
  readonly digest: string;
  readonly release: Release;
  readonly results: readonly GateResult[];
  readonly comparison?: SetComparison;
}

export const releasePath = ({ id, version }: Pick<Release, 'id' | 'version'>): string =>
  `releases/${id}-${version}.json`;

/** RFC 8785 JSON and a line end: the same release, results and comparison give the same bytes. */
export function releaseText(
  release: Release,
  results: readonly GateResult[],
  comparison?: SetComparison,
): string {
  const file: ReleaseFile = {
    $schema: 'urn:dwellset:release-file:1',
    digest: digest(release),
    release,
    results,
    ...(comparison && { comparison }),
  };
  return `${canonicalJson(file)}\n`;
}

/** The release in a file, if its bytes are canonical and its digest is the one that they give. */
export function readReleaseFile(text: string): Release | undefined {
  try {
    const file = JSON.parse(text) as ReleaseFile;
    const sound =
      file.$schema === 'urn:dwellset:release-file:1' &&
      file.digest === digest(file.release) &&
      `${canonicalJson(file)}\n` === text;
    return sound ? file.release : undefined;
  } catch {
    return undefined;
  }
}

/** A change log with one line for a release, under the heading of its version; a line that stands there stays alone. */
export function withLogLine(log: string, version: string, line: string): string {
  if (log.includes(line)) return log;
  const heading = new RegExp(`^## ${version.replaceAll('.', '\\.')}( .*)?\\n\\n?`, 'm');
  if (heading.test(log)) return log.replace(heading, (found) => `${found}${line}\n`);
  const first = log.search(/^## /m);
  const section = `## ${version}\n\n${line}\n`;
  return first < 0
    ? `${log.trimEnd()}\n\n${section}`
    : `${log.slice(0, first)}${section}\n${log.slice(first)}`;
}
