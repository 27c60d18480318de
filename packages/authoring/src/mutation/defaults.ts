import { type Constant, digest, type Parameter, type Release } from '@dwellset/core';
import { constantEdits, stepOf } from './values.ts';

/** Values that a local choice might have had by mistake: a step off, within its range; the other answer; other codes. */
export function defaultEdits(release: Release, parameter: Parameter): Constant[] {
  const { type, value, range } = parameter;
  const codes = Object.keys(release.codes[parameter.codes ?? ''] ?? {});
  const [low, high] = range ?? [-Infinity, Infinity];
  return constantEdits({ type, step: stepOf(parameter), codes, value }).filter(
    (other) => typeof other !== 'number' || (other >= low && other <= high),
  );
}

/**
 * The releases with another value of one local choice in all of them. A release that reads the conclusion of another
 * pins its digest, so those are named anew.
 */
export function withChoice(releases: readonly Release[], id: string, value: Constant): readonly Release[] {
  const changed = new Map(
    releases.map((release) => [
      release.id,
      {
        ...release,
        parameters: release.parameters.map((one) => (one.id === id ? { ...one, value } : one)),
      },
    ]),
  );
  const done = new Map<string, Release>();
  const pinned = (release: Release): Release => {
    const known = done.get(release.id);
    if (known) return known;
    const reads = release.reads?.map((entry) => {
      const other = changed.get(entry.id);
      return other ? { ...entry, digest: digest(pinned(other)) } : entry;
    });
    const own = reads ? { ...release, reads } : release;
    done.set(release.id, own);
    return own;
  };
  return releases.map(({ id: set }) => pinned(changed.get(set)!));
}
