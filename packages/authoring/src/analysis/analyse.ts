import type { BuildOptions } from '../build/buildRelease.ts';
import type { Library } from '../library/shape.ts';
import { momentOf } from '../vignettes/moment.ts';
import { isPlan, planOf, vignettesOf } from '../vignettes/runVignettes.ts';
import { accept } from './accept.ts';
import { basisOf } from './basis.ts';
import type { Draft, Finder } from './draft.ts';
import { alwaysApplies, neverApplies } from './find/applies.ts';
import { checksContradict, contradictoryAdvice, preferenceContradicted } from './find/contradictions.ts';
import { gap } from './find/gap.ts';
import { alwaysFolded, neverStands, redundant } from './find/implied.ts';
import { islands } from './find/island.ts';
import { limitsWithoutEffect } from './find/limits.ts';
import { nothingLeft } from './find/nothingLeft.ts';
import { choicesWithoutEffect } from './find/parameters.ts';
import type { Finding, SetAnalysis } from './shape.ts';
import { Subject } from './subject.ts';

const FINDERS: readonly Finder[] = [
  neverApplies,
  alwaysApplies,
  redundant,
  neverStands,
  alwaysFolded,
  contradictoryAdvice,
  checksContradict,
  preferenceContradicted,
  gap,
  islands,
  nothingLeft,
  limitsWithoutEffect,
  choicesWithoutEffect,
];

/** How often {@link analysing} tells: after each step whoever runs it may let others work. */
export const ANALYSIS_STEPS = FINDERS.length;

/**
 * The same as {@link analyseSet}, told as it arises: after each kind of search what that found, in the end
 * everything. What is accepted is marked from the beginning.
 */
export function* analysing(
  library: Library,
  setId: string,
  options: BuildOptions = {},
): Generator<readonly Finding[], SetAnalysis, void> {
  const documents = library.sets.get(setId);
  const plan = planOf(library, setId, options);
  const set = isPlan(plan)
    ? plan.sets.find(({ release }) => release.id === documents?.ruleSet.value.id)
    : undefined;
  if (documents === undefined || !isPlan(plan) || set === undefined) {
    const refused = isPlan(plan) ? [] : plan;
    return { set: setId, rules: 0, refused, findings: [], stale: [] };
  }
  const moment = momentOf(vignettesOf(documents));
  const { hospital } = options;
  const subject = new Subject({ library, documents, plan, set, moment, hospital });
  const findings: Finding[] = [];
  for (const find of FINDERS) {
    const found = [...find(subject)].map((draft) => findingOf(subject, draft));
    findings.push(...found);
    yield accept(library, setId, found, hospital).findings;
  }
  return { set: setId, rules: set.rules.length, ...accept(library, setId, findings, hospital) };
}

/**
 * What is wrong with the rules of one set by themselves, without any case: found in boxes of atoms, and where a
 * patient is said to exist, confirmed by the core. Findings that `accepted/<set>.json` accepts are marked; in a
 * hospital's amended set those that rest on the same, and those that the hospital accepts itself. Pure, without Node.
 */
export function analyseSet(library: Library, setId: string, options: BuildOptions = {}): SetAnalysis {
  const steps = analysing(library, setId, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

function findingOf({ release, set }: Subject, draft: Draft): Finding {
  const named = new Set(draft.of.map((name) => name.split('/')[0]));
  const locked = set.rules.some(({ rule }) => rule.locked === true && named.has(rule.id));
  return { set: release.id, locked, digest: basisOf(release, draft), ...draft };
}
