import type { ConclusionResult, Release } from '@dwellset/core';
import { fails, type Pair } from '../bounds/pair.ts';
import type { Standing } from './standing.ts';

/**
 * The conclusion of a decision set: the first in precedence that an applying rule draws, else the default, which
 * is only drawn for a patient whom the set is about.
 */
export function conclude(
  release: Release,
  standings: readonly Standing[],
  about: Pair,
): Pick<ConclusionResult, 'id' | 'settled' | 'possible'> {
  const order = (release.conclusions ?? []).map(({ id }) => id);
  const drawn = (outcome: Standing['outcome']) =>
    new Set(standings.filter((one) => one.outcome === outcome).flatMap((one) => one.rule.concludes ?? []));
  const applying = drawn('applies');
  const undecided = drawn('undetermined');
  const reached = order.find((conclusion) => applying.has(conclusion));
  const stronger = reached === undefined ? order : order.slice(0, order.indexOf(reached));
  const above = stronger.filter((conclusion) => undecided.has(conclusion));
  const id = reached ?? (fails(about) ? undefined : release.defaultConclusion?.id);
  return {
    ...(id === undefined ? {} : { id }),
    settled: above.length === 0,
    possible: [...above, ...(id === undefined ? [] : [id])],
  };
}
