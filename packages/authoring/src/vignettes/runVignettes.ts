import { assess, type Case, compile, type Plan, PlanError } from '@dwellset/core';
import { type BuildOptions, buildRelease, releasesFor } from '../build/buildRelease.ts';
import type { Vignette } from '../documents/vignettes.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { caseOf } from './caseOf.ts';
import { type Mismatch, mismatches, readFor } from './expectations.ts';

export interface VignetteResult {
  readonly set: string;
  /** The rule whose file it stands in. */
  readonly rule: string;
  readonly id: string;
  readonly title: string;
  readonly passed: boolean;
  readonly mismatches: readonly Mismatch[];
}

export interface VignetteOptions extends BuildOptions {
  /** Runs the vignettes of this set only. */
  readonly set?: string;
}

/** One vignette of a set, ready to run. */
export interface ReadyVignette {
  readonly rule: string;
  readonly vignette: Vignette;
  readonly case: Case;
}

export const vignettesOf = (set: LibrarySet): ReadyVignette[] =>
  [...set.vignettes].flatMap(([rule, { value }]) =>
    value.vignettes.map((vignette) => ({ rule, vignette, case: caseOf(value.base, vignette) })),
  );

/** A plan of one set as a vignette runs it: whatever its status, since nothing here reaches a patient. */
export function planOf(library: Library, set: string, options: BuildOptions): Plan | readonly string[] {
  const { release, refused } = buildRelease(library, set, options);
  if (release === undefined) return (refused ?? []).map(({ message }) => message);
  try {
    const releases = releasesFor(library, set, options);
    return compile(releases, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });
  } catch (error) {
    if (error instanceof PlanError) return error.problems;
    throw error;
  }
}

export const isPlan = (plan: Plan | readonly string[]): plan is Plan => !Array.isArray(plan);

/** Runs every vignette of the published sets, or of a hospital's; a set that does not build fails all of its own. */
export function runVignettes(
  library: Library,
  { set: only, ...options }: VignetteOptions = {},
): VignetteResult[] {
  return [...library.sets.values()].flatMap((set) => {
    if (only !== undefined && set.id !== only) return [];
    const plan = planOf(library, set.id, options);
    return vignettesOf(set).map(({ rule, vignette, case: patient }): VignetteResult => {
      const found = isPlan(plan)
        ? mismatches(vignette.expect, assess(plan, patient, readFor(vignette.expect)), set.ruleSet.value.id)
        : [{ what: 'release', expected: 'a release that runs', received: plan }];
      const { id, title } = vignette;
      return { set: set.id, rule, id, title, passed: found.length === 0, mismatches: found };
    });
  });
}
