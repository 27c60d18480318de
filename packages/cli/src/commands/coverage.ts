import { buildRelease, coverage, TOTALS } from '@dwellset/authoring';
import { coverageText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { columns } from '../command.ts';
import type { Policies } from '../files/policies.ts';
import type { Given } from '../options.ts';
import { percentOf } from '../percent.ts';

/** The percentage that every total must reach; none is asked for where the option is absent. */
export function leastOf(given: Given): number {
  const least = percentOf(given, 'least');
  if (least === undefined) return 0;
  if (!given.has('coverage')) throw new CannotRun('`--least` needs `--coverage`');
  return least;
}

/** What the vignettes of these sets show, and whether that is less than was asked for; a set that does not run is. */
export function coverageOf(
  { library, hospital, shown }: Policies,
  sets: readonly string[],
  least: number,
): { readonly text: string; readonly failed: boolean } {
  const options = hospital === undefined ? {} : { hospital };
  const covered = sets.flatMap((set) => coverage(library, { set, ...options }).sets);
  const releases = sets.flatMap((set) => buildRelease(library, set, options).release ?? []);
  return {
    text: coverageText({ sets: covered }, { width: columns(), releases, shown }),
    failed: covered.some(
      ({ refused, totals }) => refused !== undefined || TOTALS.some((name) => totals[name].percent < least),
    ),
  };
}
