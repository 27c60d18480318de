import { adoptionOf, buildRelease, releasesFor, type Side } from '@dwellset/authoring';
import { type Adoption, compile, type Plan, PlanError, type Release, type Withdrawal } from '@dwellset/core';
import { CannotRun } from './cannotRun.ts';
import { type Policies, placed } from './files/policies.ts';
import { firstOf } from './files/readCase.ts';
import type { Given } from './options.ts';

type Allowed = NonNullable<NonNullable<Parameters<typeof compile>[1]>['allow']>;

/** One rule set as this hospital runs it, or as it stands where no hospital is named. */
export function releaseOf(policies: Policies, set: string): Release {
  const { library, hospital } = policies;
  if (!library.sets.has(set)) {
    const known = [...library.sets.keys()].join(', ');
    throw new CannotRun(`there is no rule set \`${set}\`${known === '' ? '' : `; there are: ${known}`}`);
  }
  const built = buildRelease(library, set, hospital === undefined ? {} : { hospital });
  if (built.release) return built.release;
  throw new CannotRun(firstOf((built.refused ?? []).map((diagnostic) => placed(policies, diagnostic))));
}

/** The same with the sets that it reads: what has to be compiled together. */
export function sideFor(policies: Policies, set: string): Side {
  const { library, hospital } = policies;
  const release = releaseOf(policies, set);
  const [, ...read] = releasesFor(library, set, hospital === undefined ? {} : { hospital });
  return [release, ...read];
}

/** What to do where drafts that nobody adopted are all that stands in the way; said once, however many they are. */
function draftsOnly(
  { problems }: PlanError,
  releases: readonly Release[],
  given: Given,
  adoption: Adoption | undefined,
  withdrawals: readonly Withdrawal[],
): string | undefined {
  const drafts = releases.filter(
    ({ id, version, status, withdrawn }) =>
      status === 'draft' &&
      withdrawn === undefined &&
      !withdrawals.some((one) => one.id === id && one.version === version) &&
      !adoption?.releases.some((entry) => entry.id === id && entry.version === version),
  );
  if (drafts.length !== problems.length || given.all('allow').includes('draft')) return undefined;
  if (adoption === undefined) {
    return 'these rules are drafts until a hospital adopts them: name one with `--hospital`, or try them out with `--allow draft`';
  }
  const names = drafts.map(({ id }) => `\`${id}\``).join(', ');
  return `not adopted by ${adoption.organisation}: ${names}; \`--allow draft\` runs drafts`;
}

/** The plan that a command line asks for: the named sets, or those a hospital has adopted, or all. */
export function planOf(policies: Policies, given: Given): Plan {
  const { library, hospital } = policies;
  const adoption = hospital === undefined ? undefined : adoptionOf(library, hospital);
  const named = given.all('set');
  const sets =
    named.length > 0
      ? [...new Set(named)]
      : (adoption?.releases.map(({ id }) => id) ?? [...library.sets.keys()]);
  const sides = sets.map((set) => sideFor(policies, set));
  const asked = sides.map(([release]) => release);
  // A set whose conclusion another reads runs beside it, whether or not it was asked for.
  const releases = [...new Map([...asked, ...sides.flat()].map((release) => [release.id, release])).values()];
  try {
    return compile(releases, {
      allow: given.all('allow') as Allowed,
      withdrawals: library.withdrawals,
      ...(adoption && { adoption }),
    });
  } catch (error) {
    if (!(error instanceof PlanError)) throw error;
    throw new CannotRun(
      draftsOnly(error, releases, given, adoption, library.withdrawals) ??
        `these rules may not run: ${error.problems.join('; ')}`,
    );
  }
}
