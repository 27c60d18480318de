import { writeFileSync } from 'node:fs';
import {
  adoptionOf,
  check,
  compareReleases,
  type GateResult,
  runForHospital,
  runGates,
  runVignettes,
  type SetComparison,
  type Side,
  vignetteSeeds,
  wardSeeds,
} from '@dwellset/authoring';
import { digest, type Release } from '@dwellset/core';
import {
  type ReportedGate,
  type ReportedSet,
  type ReportShown,
  reportHtml,
  reportJunit,
  reportMarkdown,
  vignetteFailed,
} from '@dwellset/wording';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, POLICIES } from '../command.ts';
import { type Policies, placed, readPolicies } from '../files/policies.ts';
import { whyNot } from '../files/readText.ts';
import { earlierRelease } from '../files/releaseFiles.ts';
import { shownVignette } from '../files/shownVignette.ts';
import { ALL_GATES, acceptedOf, GATE_IDS } from '../gates/all.ts';
import type { Given } from '../options.ts';
import { sideFor } from '../planOf.ts';
import { sideOf } from '../sides.ts';

const WRITERS: Readonly<Record<string, readonly [ending: string, write: (shown: ReportShown) => string]>> = {
  html: ['.html', reportHtml],
  markdown: ['.md', reportMarkdown],
  junit: ['.xml', reportJunit],
};
const FORMS = Object.keys(WRITERS);

/** The gates that are asked for, or all; the others are said not to have been run. */
async function gatesOf({ library }: Policies, release: Release, given: Given, comparison?: SetComparison) {
  const asked = given.all('gate');
  const chosen = ALL_GATES.filter(({ id }) => asked.length === 0 || asked.includes(id));
  const context = { library, release, ...(comparison && { comparison }) };
  const results = new Map<string, GateResult>();
  for (const one of await runGates(chosen, context, acceptedOf(given))) results.set(one.gate, one);
  return ALL_GATES.map(({ id }): ReportedGate => results.get(id) ?? { gate: id, outcome: 'not-run' });
}

const compared = ({ library }: Policies, before: Side, after: Side): SetComparison =>
  compareReleases(before, after, [...vignetteSeeds(library, after[0].id), ...wardSeeds(library, 1)]);

/** One set as published, held to its gates and beside the release before it. */
async function asPublished(policies: Policies, set: string, given: Given): Promise<ReportedSet> {
  const after = sideFor(policies, set);
  const [release] = after;
  const earlier = earlierRelease(policies.folder, release);
  const before = earlier === undefined ? undefined : sideOf(earlier, given.one('policies')).sets.get(set);
  const comparison = before && compared(policies, before, after);
  return {
    release,
    digest: digest(release),
    gates: await gatesOf(policies, release, given, comparison),
    vignettes: runVignettes(policies.library, { set }).map((result) => shownVignette(result, policies)),
    ...(before && comparison && { before: before[0], comparison }),
  };
}

/** One set as a hospital has it: gates are about what is published, and so are the vignettes it is held to. */
function asAmended(policies: Policies, set: string, hospital: string): ReportedSet {
  const after = sideFor(policies, set);
  const [release] = after;
  const { hospital: _, ...published } = policies;
  const before = release.amendment && sideFor(published, set);
  return {
    release,
    digest: digest(release),
    gates: [],
    vignettes: runForHospital(policies.library, { set, hospital }).map((result) =>
      shownVignette(result, policies),
    ),
    ...(before && { before: before[0], comparison: compared(policies, before, after) }),
  };
}

function toFile(file: string | undefined, text: string, ending: string, failed: boolean): Finished {
  if (file === undefined) return { text, failed };
  if (!file.endsWith(ending)) throw new CannotRun(`\`--to ${file}\` must end in \`${ending}\``);
  try {
    writeFileSync(file, text);
  } catch (error) {
    throw new CannotRun(`${file}: ${whyNot(error)}`);
  }
  return { text: `${file}\n`, failed };
}

export const report: Command = {
  name: 'report',
  usage: [
    '[SET]...',
    '[--hospital DIR]',
    '[--as html|markdown|junit]',
    '[--gate ID]...',
    '[--accept GATE=REASON]...',
    '[--to FILE]',
    '[--policies DIR]',
  ],
  summary: 'writes what a committee, a pull request or a pipeline needs to know of the rules',
  details: [
    'Open findings, local amendment with reasons, what changed, results of gates and vignettes, hazards with their controls, digests. Without SET every set is reported; with --hospital the sets as that hospital has them, beside what is published.',
    'html is one page to read and print, markdown is for a pull request, junit is XML for a pipeline.',
    `Gates are run as by \`release\`: ${GATE_IDS}. With --gate only those are, and the report says that the others were not.`,
    'It goes to FILE, whose name ends in .html, .md or .xml, or to standard output. The exit code is 2 where a gate refuses, a vignette fails, the check finds an error, or a version was withdrawn.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    as: { type: 'string', value: 'FORM', oneOf: FORMS },
    gate: { type: 'string', multiple: true, value: 'ID', oneOf: ALL_GATES.map(({ id }) => id) },
    accept: { type: 'string', multiple: true, value: 'GATE=REASON' },
    to: { type: 'string', value: 'FILE' },
  },
  async run(given): Promise<Finished> {
    const [ending, write] = WRITERS[given.one('as') ?? 'html']!;
    const to = given.one('to');
    if (to !== undefined && !to.endsWith(ending))
      throw new CannotRun(`\`--to ${to}\` must end in \`${ending}\``);
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const { library, hospital } = policies;
    if (hospital !== undefined && (given.has('gate') || given.has('accept'))) {
      throw new CannotRun(
        'gates are run on what is published; `--gate` and `--accept` do not go with `--hospital`',
      );
    }
    const adoption = hospital === undefined ? undefined : adoptionOf(library, hospital);
    const named = given.arguments.length > 0 ? given.arguments : adoption?.releases.map(({ id }) => id);
    const ids = [...new Set(named ?? library.sets.keys())];
    const sets: ReportedSet[] = [];
    for (const id of ids) {
      sets.push(
        hospital === undefined ? await asPublished(policies, id, given) : asAmended(policies, id, hospital),
      );
    }
    const findings = check(library).filter(({ path }) => concerns(path, ids, hospital));
    const { withdrawals } = library;
    const shown: ReportShown = {
      sets,
      findings: findings.map((one) => placed(policies, one)),
      ...(adoption && { adoption }),
      withdrawals,
    };
    return toFile(to, write(shown), ending, hasFailed(shown));
  },
};

/** Documents of other sets and of other hospitals are not what the report is about. */
function concerns(path: string, sets: readonly string[], hospital: string | undefined): boolean {
  const [folder = '', name] = path.split('/');
  if (folder === 'hospitals') return name === hospital;
  return sets.includes(folder) || !/\.(rule|vignettes)\.json$|\/ruleset\.json$|\/stock\//.test(path);
}

const hasFailed = ({ sets, findings, withdrawals }: ReportShown): boolean =>
  findings.some(({ severity }) => severity === 'error') ||
  sets.some(
    ({ release: { id, version }, gates, vignettes }) =>
      gates.some(({ outcome }) => outcome === 'refused') ||
      vignettes.some(vignetteFailed) ||
      withdrawals.some((one) => one.id === id && one.version === version),
  );
