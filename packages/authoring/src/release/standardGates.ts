import type { Release } from '@dwellset/core';
import { analyseSet } from '../analysis/analyse.ts';
import { check } from '../check/check.ts';
import { coverage } from '../coverage/coverage.ts';
import { TOTALS } from '../coverage/shape.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { hazardProof } from '../hazards/hazardProof.ts';
import type { Library } from '../library/shape.ts';
import { mutate } from '../mutation/mutate.ts';
import type { Survivor, Tally } from '../mutation/shape.ts';
import { runVignettes } from '../vignettes/runVignettes.ts';
import type { Gate, GateContext } from './gates.ts';
import { compareVersions, nextVersion } from './versions.ts';

/** Percent of planted mistakes that the vignettes of a set must notice; of those in locked rules they must notice all. */
export const LEAST_NOTICED = 95;

/** Those that need no other package than this one; others are added to the list by whoever releases. */
export const GATES: readonly Gate[] = [
  { id: 'check', run: checkFindings },
  { id: 'vignettes', run: vignetteFindings },
  { id: 'analysis', run: analysisFindings },
  { id: 'coverage', run: coverageFindings },
  { id: 'mutation', run: mutationFindings },
  { id: 'hazards', run: ({ library, release }) => hazardProof(library, { set: release.id }).map(placed) },
  { id: 'version', run: versionFindings },
];

const placed = ({ path, range, code }: Diagnostic): string => `${path}:${range.line}:${range.column} ${code}`;

function checkFindings({ library }: GateContext): string[] {
  return (
    check(library)
      .filter(({ severity }) => severity === 'error')
      // What replaces a withdrawn version must come out while hospitals still name that version.
      .filter(({ code, path }) => code !== 'withdrawn-release' || !path.startsWith('hospitals/'))
      .map(placed)
  );
}

function vignetteFindings({ library, release }: GateContext): string[] {
  const results = runVignettes(library, { set: release.id });
  if (results.length === 0) return [`${release.id}: 0`];
  return results.filter(({ passed }) => !passed).map(({ set, rule, id }) => `${set}/${rule}/${id}`);
}

/** Whatever nobody has accepted with a reason, possible or certain; and acceptances that accept nothing. */
function analysisFindings({ library, release }: GateContext): string[] {
  const { refused = [], findings, stale } = analyseSet(library, release.id);
  return [
    ...refused,
    ...findings
      .filter(({ accepted }) => accepted === undefined)
      .map((finding) => `${at(finding)} ${finding.kind}: ${finding.of.join(', ')}`),
    ...stale.map((one) => `${at(one)} ${one.why}: ${one.kind}: ${one.of.join(', ')}`),
  ];
}

function coverageFindings({ library, release }: GateContext): string[] {
  return coverage(library, { set: release.id }).sets.flatMap(({ refused, totals }) =>
    refused
      ? [...refused]
      : TOTALS.filter((name) => totals[name].uncovered > 0).map(
          (name) => `${name}: ${totals[name].percent} %`,
        ),
  );
}

function mutationFindings({ library, release }: GateContext): string[] {
  return mutate(library, { set: release.id }).sets.flatMap(({ refused, all, locked, survivors }) => {
    if (refused) return [...refused];
    const short = all.percent < LEAST_NOTICED;
    return [
      ...(short ? [`all: ${share(all)} < ${LEAST_NOTICED} %`] : []),
      ...(locked.percent < 100 ? [`locked: ${share(locked)} < 100 %`] : []),
      ...survivors
        .filter((one) => one.verdict === 'unnoticed' && (short || one.locked))
        .map((one) => `${at(one)} ${one.kind}${one.locked ? ' (locked)' : ''}`),
    ];
  });
}

const share = ({ noticed, planted, withoutEffect, percent }: Tally): string =>
  `${noticed} / ${planted - withoutEffect} = ${percent} %`;

const at = ({ place }: Pick<Survivor, 'place'>): string =>
  `${place.path}:${place.range.line}:${place.range.column}`;

function versionFindings({ library, release, comparison }: GateContext): string[] {
  const before = comparison?.before?.version;
  const least = before === undefined ? undefined : nextVersion(before, comparison!.bump);
  const tooLow = least !== undefined && compareVersions(release.version, least) < 0;
  return [
    ...(tooLow ? [`${release.version} < ${least}`] : []),
    ...(isWithdrawn(library, release) ? [`${release.version} withdrawn`] : []),
  ];
}

/** A version that was withdrawn does not come back. */
const isWithdrawn = ({ withdrawals }: Library, { id, version }: Release): boolean =>
  withdrawals.some((one) => one.id === id && one.version === version);
