import type { Release } from '@dwellset/core';
import { check } from '../check/check.ts';
import { BUMPS, type SetComparison } from '../compare/shape.ts';
import { coverage } from '../coverage/coverage.ts';
import { TOTALS } from '../coverage/shape.ts';
import type { Library } from '../library/shape.ts';
import { runVignettes } from '../vignettes/runVignettes.ts';

/** What a gate looks at before a set is released. */
export interface GateContext {
  readonly library: Library;
  readonly release: Release;
  /** Beside the newest earlier release, where there is one. */
  readonly comparison?: SetComparison;
}

/** One condition of a release. What it finds is data: a code, a place or an id, and no sentence. */
export interface Gate {
  readonly name: string;
  /** Nothing found: passed. */
  readonly run: (context: GateContext) => readonly string[] | Promise<readonly string[]>;
}

export interface GateResult {
  readonly gate: string;
  readonly outcome: 'passed' | 'refused' | 'accepted';
  readonly findings: readonly string[];
  /** Why it may be released in spite of the findings. */
  readonly reason?: string;
}

/** Those that need no other package than this one; others are added to the list by whoever releases. */
export const GATES: readonly Gate[] = [
  {
    name: 'check',
    run: ({ library }) =>
      check(library)
        .filter(({ severity }) => severity === 'error')
        .map(({ path, range, code }) => `${path}:${range.line}:${range.column} ${code}`),
  },
  {
    name: 'vignettes',
    run: ({ library, release }) => {
      const results = runVignettes(library, { set: release.id });
      if (results.length === 0) return [`${release.id}: 0`];
      return results.filter(({ passed }) => !passed).map(({ set, rule, id }) => `${set}/${rule}/${id}`);
    },
  },
  {
    name: 'coverage',
    run: ({ library, release }) =>
      coverage(library, { set: release.id }).sets.flatMap(({ refused, totals }) =>
        refused
          ? refused
          : TOTALS.filter((name) => totals[name].uncovered > 0).map(
              (name) => `${name}: ${totals[name].percent} %`,
            ),
      ),
  },
  {
    name: 'version',
    run: ({ release, comparison }) => {
      const before = comparison?.before?.version;
      if (before === undefined || comparison === undefined) return [];
      const least = nextVersion(before, comparison.bump);
      return compareVersions(release.version, least) < 0 ? [`${release.version} < ${least}`] : [];
    },
  },
];

const numbers = (version: string): readonly number[] => version.split('.').map(Number);

export const compareVersions = (a: string, b: string): number => {
  const [one, other] = [numbers(a), numbers(b)];
  const at = [0, 1, 2].find((index) => one[index] !== other[index]);
  return at === undefined ? 0 : (one[at] ?? 0) - (other[at] ?? 0);
};

/** The least version that a change allows. Before 1.0.0 a major change moves the second number. */
function nextVersion(version: string, bump: SetComparison['bump']): string {
  const [major = 0, minor = 0, patch = 0] = numbers(version);
  const step = BUMPS.indexOf(bump);
  if (step < 2) return `${major}.${minor}.${patch + 1}`;
  return step === 3 && major > 0 ? `${major + 1}.0.0` : `${major}.${minor + 1}.0`;
}

/** Runs every gate, whatever the others find. A reason is taken only for a gate that refuses. */
export async function runGates(
  gates: readonly Gate[],
  context: GateContext,
  accepted: ReadonlyMap<string, string>,
): Promise<GateResult[]> {
  const results: GateResult[] = [];
  for (const { name, run } of gates) {
    const findings = await run(context);
    const reason = accepted.get(name);
    if (findings.length === 0) results.push({ gate: name, outcome: 'passed', findings });
    else if (reason === undefined) results.push({ gate: name, outcome: 'refused', findings });
    else results.push({ gate: name, outcome: 'accepted', findings, reason });
  }
  return results;
}
