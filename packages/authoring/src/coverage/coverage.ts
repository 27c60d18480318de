import type { PlanSet } from '@dwellset/core';
import type { Library, LibrarySet } from '../library/shape.ts';
import { isPlan, planOf, type VignetteOptions, vignettesOf } from '../vignettes/runVignettes.ts';
import { bearingOn, coverCondition } from './conditions.ts';
import { decisionsOf } from './decisions.ts';
import { coverLimits } from './limits.ts';
import { observe } from './observe.ts';
import { coverOptions } from './options.ts';
import { anchorOfRule, anchorOfStock, below, placeAt } from './places.ts';
import { coverRemarks } from './remarks.ts';
import { coverRule } from './rules.ts';
import type { Coverage, SetCoverage, Total } from './shape.ts';
import { totalsOf } from './totals.ts';

/**
 * What the vignettes of each set show of its rules, conditions, limits and options, on the published rules or as a
 * hospital has amended them. All vignettes of a set count for all of its rules. Rules that are switched off are left
 * out. Pure; a set that does not build is reported as refused.
 */
export function coverage(library: Library, { set: only, ...options }: VignetteOptions = {}): Coverage {
  const sets = [...library.sets.values()].filter(({ id }) => only === undefined || id === only);
  return { sets: sets.map((set) => coverSet(library, set, options)) };
}

function coverSet(library: Library, set: LibrarySet, options: Omit<VignetteOptions, 'set'>): SetCoverage {
  const vignettes = vignettesOf(set);
  const plan = planOf(library, set.id, options);
  const release = isPlan(plan) ? plan.sets.find((one) => one.release.id === set.ruleSet.value.id) : undefined;
  if (!isPlan(plan) || release === undefined) {
    const refused = isPlan(plan) ? [] : plan;
    return { set: set.id, vignettes: vignettes.length, refused, ...NOTHING };
  }
  const anchorOf = (rule: string) => anchorOfRule(library, set, rule, options.hospital);
  const observed = observe(plan, release.release.id, Object.keys(release.stock), vignettes);
  const decisions = decisionsOf(plan, release, { ruleSet: set.ruleSet, rule: anchorOf });
  const found = {
    rules: running(release).map((rule) =>
      coverRule(plan, release, rule, placeAt(anchorOf(rule.rule.id)), observed.patient),
    ),
    conditions: decisions.flatMap((decision) =>
      decision.occurrences.map((one) => coverCondition(plan, decision, one, bearingOn(observed, decision))),
    ),
    limits: decisions.flatMap((decision) => coverLimits(plan, decision, bearingOn(observed, decision))),
    options: coverOptions(plan, release, observed, (kind) =>
      anchorOfStock(library, set, kind, options.hospital),
    ),
    remarks: coverRemarks(plan, release, observed, (rule) => placeAt(below(anchorOf(rule), 'remarks'))),
  };
  return { set: set.id, vignettes: vignettes.length, totals: totalsOf(found), ...found };
}

/** Of a set that does not run nothing is covered, little as there is to cover. */
const none: Total = { covered: 0, uncovered: 0, impossible: 0, percent: 0 };
const NOTHING = {
  totals: { outcomes: none, truths: none, alone: none, limits: none, options: none },
  rules: [],
  conditions: [],
  limits: [],
  options: [],
  remarks: [],
};

const running = ({ rules }: PlanSet) => rules.filter(({ switchedOff }) => !switchedOff);
