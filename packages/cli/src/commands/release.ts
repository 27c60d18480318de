import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  compareReleases,
  compareVersions,
  GATES,
  type Gate,
  readReleaseFile,
  releasePath,
  releasesFor,
  releaseText,
  runGates,
  type SetComparison,
  type Side,
  vignetteSeeds,
  wardSeeds,
  withLogLine,
} from '@dwellset/authoring';
import { compile, digest, type Release } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';
import { logLine, releaseReport } from '@dwellset/wording';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { fromHere, type Policies, readPolicies } from '../files/policies.ts';
import type { Given } from '../options.ts';
import { releaseOf } from '../planOf.ts';
import { sideOf } from '../sides.ts';

/** Every vignette of the set a second time on the independent engine. */
const secondEngine: Gate = {
  name: 'second-engine',
  run: async ({ library, release }) => {
    const plan = compile(releasesFor(library, release.id), {
      allow: ['draft', 'retired', 'withdrawn', 'out-of-period'],
    });
    const found: string[] = [];
    for (const { name, case: patient } of vignetteSeeds(library, release.id)) {
      const { disagreements } = await crossCheck(plan, patient);
      for (const { set, rule, what } of disagreements) found.push(`${name}: ${set}/${rule ?? ''} ${what}`);
    }
    return found;
  },
};

const ALL: readonly Gate[] = [...GATES, secondEngine];

function acceptedOf(given: Given): ReadonlyMap<string, string> {
  return new Map(
    given.all('accept').map((text): [string, string] => {
      const at = text.indexOf('=');
      const [gate, reason] = [text.slice(0, at), text.slice(at + 1).trim()];
      if (at < 0 || reason === '' || !ALL.some(({ name }) => name === gate)) {
        const names = ALL.map(({ name }) => name).join(', ');
        throw new CannotRun(`\`--accept ${text}\` is no GATE=REASON; gates are: ${names}`);
      }
      return [gate, reason];
    }),
  );
}

/** The newest release of the set before this version. */
function predecessor(
  folder: string,
  { id, version }: Release,
  policies: string | undefined,
): Side | undefined {
  const place = join(folder, 'releases');
  if (!existsSync(place)) return undefined;
  const earlier = readdirSync(place)
    .filter((name) => name.startsWith(`${id}-`) && /^\d+\.\d+\.\d+\.json$/.test(name.slice(id.length + 1)))
    .map((name) => name.slice(id.length + 1, -'.json'.length))
    .filter((other) => compareVersions(other, version) < 0)
    .sort(compareVersions)
    .at(-1);
  if (earlier === undefined) return undefined;
  const file = join(place, `${id}-${earlier}.json`);
  if (readReleaseFile(readFileSync(file, 'utf8')) === undefined) {
    throw new CannotRun(`${fromHere(file)}: was changed since it was released`);
  }
  return sideOf(file, policies).sets.get(id);
}

/** Written once: other bytes under the same version are refused. */
function writeOnce(file: string, text: string): void {
  if (existsSync(file)) {
    if (readFileSync(file, 'utf8') === text) return;
    throw new CannotRun(
      `${fromHere(file)}: is released already and never changes; give the set a new version`,
    );
  }
  writeFileSync(file, text, { flag: 'wx' });
}

function write(
  policies: Policies,
  release: Release,
  text: string,
  comparison: SetComparison | undefined,
): string {
  const file = join(policies.folder, releasePath(release));
  mkdirSync(join(policies.folder, 'releases'), { recursive: true });
  writeOnce(file, text);
  const log = join(policies.folder, release.id, 'CHANGELOG.md');
  const before = existsSync(log) ? readFileSync(log, 'utf8') : `# Changes: ${release.title}\n`;
  const line = logLine(digest(release), comparison?.bump, comparison?.outcomes.length ?? 0);
  writeFileSync(log, withLogLine(before, release.version, line));
  return fromHere(file);
}

export const release: Command = {
  name: 'release',
  usage: ['SET', '[--accept GATE=REASON]...', '[--policies DIR]'],
  summary: 'freezes a rule set under its version, if every gate passes',
  details: [
    `Gates: ${ALL.map(({ name }) => name).join(', ')}. What a gate finds can be accepted with a reason, which is kept in the release.`,
    'It writes releases/SET-VERSION.json and a line of the change log. A released file never changes.',
    'The exit code is 2 where a gate refuses; nothing is written then.',
  ],
  options: { ...POLICIES, accept: { type: 'string', multiple: true, value: 'GATE=REASON' } },
  atMost: 1,
  async run(given): Promise<Finished> {
    const [set] = given.arguments;
    if (set === undefined) throw new CannotRun('no rule set is named; see `dwellset help release`');
    const accepted = acceptedOf(given);
    const policies = readPolicies(given.one('policies'));
    const { library, folder } = policies;
    const frozen = releaseOf(policies, set);
    const before = predecessor(folder, frozen, given.one('policies'));
    const comparison =
      before &&
      compareReleases(before, releasesFor(library, set) as unknown as Side, [
        ...vignetteSeeds(library, set),
        ...wardSeeds(library, 1),
      ]);
    const context = { library, release: frozen, ...(comparison && { comparison }) };
    const results = await runGates(ALL, context, accepted);
    const refused = results.some(({ outcome }) => outcome === 'refused');
    const text = releaseText(frozen, results, comparison);
    const written = refused ? undefined : write(policies, frozen, text, comparison);
    const name = `${frozen.id} ${frozen.version}`;
    return { text: releaseReport(name, results, written, columns()), failed: refused };
  },
};
