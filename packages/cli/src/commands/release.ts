import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  compareReleases,
  releasePath,
  releaseText,
  runGates,
  vignetteSeeds,
  vignettesIn,
  wardSeeds,
  withLogLine,
} from '@dwellset/authoring';
import { digest, type Release } from '@dwellset/core';
import { signedText } from '@dwellset/core/release-file';
import { logLine, releaseReport } from '@dwellset/wording';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { readSeed } from '../files/keys.ts';
import { fromHere, type Policies, readPolicies } from '../files/policies.ts';
import { earlierRelease, writeOnce } from '../files/releaseFiles.ts';
import { ALL_GATES, acceptedOf, GATE_IDS } from '../gates/all.ts';
import { releaseOf, sideFor } from '../planOf.ts';
import { sideOf } from '../sides.ts';

/** What changed since the newest release before this version, if there is one. */
function comparisonOf(tree: Policies, frozen: Release, policies: string | undefined) {
  const { library, folder } = tree;
  const earlier = earlierRelease(folder, frozen);
  const before = earlier === undefined ? undefined : sideOf(earlier, policies).sets.get(frozen.id);
  if (before === undefined) return undefined;
  const seeds = [...vignetteSeeds(library, frozen.id), ...wardSeeds(library, 1)];
  return compareReleases(before, sideFor(tree, frozen.id), seeds);
}

function write({ folder }: Policies, release: Release, text: string, line: string): string {
  const file = join(folder, releasePath(release));
  writeOnce(file, text, 'is released already and never changes; give the set a new version');
  const log = join(folder, release.id, 'CHANGELOG.md');
  const before = existsSync(log) ? readFileSync(log, 'utf8') : `# Changes: ${release.title}\n`;
  writeFileSync(log, withLogLine(before, release.version, line));
  return fromHere(file);
}

export const release: Command = {
  name: 'release',
  usage: ['SET', '[--accept GATE=REASON]...', '[--sign KEYFILE]', '[--dry-run]', '[--policies DIR]'],
  summary: 'freezes a rule set under its version, if every gate passes',
  details: [
    `Gates: ${GATE_IDS}. What a gate finds can be accepted with a reason, which is kept in the release.`,
    'It writes releases/SET-VERSION.json and a line of the change log. A released file never changes: `verify` says whether it has.',
    'With --sign it is signed with the Ed25519 private key in that PEM file.',
    'The exit code is 2 where a gate refuses; nothing is written then, nor with --dry-run.',
  ],
  options: {
    ...POLICIES,
    accept: { type: 'string', multiple: true, value: 'GATE=REASON' },
    sign: { type: 'string', value: 'KEYFILE' },
    'dry-run': { type: 'boolean' },
  },
  atMost: 1,
  async run(given): Promise<Finished> {
    const [set] = given.arguments;
    if (set === undefined) throw new CannotRun('no rule set is named; see `dwellset help release`');
    const accepted = acceptedOf(given);
    const key = given.one('sign');
    const seed = key === undefined ? undefined : readSeed(key);
    const policies = readPolicies(given.one('policies'));
    const { library } = policies;
    const frozen = releaseOf(policies, set);
    const comparison = comparisonOf(policies, frozen, given.one('policies'));
    const results = await runGates(
      ALL_GATES,
      { library, release: frozen, ...(comparison && { comparison }) },
      accepted,
    );
    const refused = results.some(({ outcome }) => outcome === 'refused');
    const changes = logLine(digest(frozen), comparison?.bump, comparison?.outcomes.length ?? 0);
    const vignettes = vignettesIn(library, set);
    const plain = releaseText(frozen, { results, vignettes, changes, ...(comparison && { comparison }) });
    const text = seed === undefined ? plain : signedText(plain, seed);
    const isTrial = given.has('dry-run');
    const written = refused || isTrial ? undefined : write(policies, frozen, text, changes);
    const name = `${frozen.id} ${frozen.version}`;
    return { text: releaseReport(name, results, { written, refused }, columns()), failed: refused };
  },
};
