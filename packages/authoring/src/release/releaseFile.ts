import type { Release } from '@dwellset/core';
import {
  type ReleaseFile as CoreReleaseFile,
  type OpenedReleaseFile,
  openReleaseFile,
  sealedText,
} from '@dwellset/core/release-file';
import type { SetComparison } from '../compare/shape.ts';
import type { DocumentOf } from '../documents/kinds.ts';
import type { Library } from '../library/shape.ts';
import type { GateResult } from './gates.ts';

/** What is laid down beside a release: how it was proven, and what changed since the one before. */
interface ReleaseParts {
  readonly results: readonly GateResult[];
  /** By rule: the invented cases that the gates ran. */
  readonly vignettes: Readonly<Record<string, DocumentOf<'vignettes'>>>;
  readonly comparison?: SetComparison;
  /** Its line of the change log. */
  readonly changes: string;
}

/** A release as this package keeps it. */
export type ReleaseFile = CoreReleaseFile & ReleaseParts;

export const releasePath = ({ id, version }: Pick<Release, 'id' | 'version'>): string =>
  `releases/${id}-${version}.json`;

/** The same release and parts give the same bytes. */
export const releaseText = (release: Release, parts: ReleaseParts): string => sealedText(release, parts);

/** What a file of this package holds, if it is sound and, where keys are named, signed by one of them. */
export const readReleaseFile = (
  given: string | Uint8Array,
  options?: { readonly trust?: readonly string[] },
): OpenedReleaseFile<ReleaseFile> => openReleaseFile<ReleaseFile>(given, options);

export const vignettesIn = (library: Library, set: string): ReleaseParts['vignettes'] =>
  Object.fromEntries(
    [...(library.sets.get(set)?.vignettes ?? [])].map(([rule, { value }]) => [rule, value] as const),
  );
