import type { Case, Release, Rule } from '@dwellset/core';
import { type Choice, judgeChoices } from './choice.ts';
import { holds, openFacts } from './condition.ts';
import { exact } from './known.ts';
import { all, not, type Truth } from './truth.ts';
import { makeWorld, type World } from './world.ts';

export interface ReferenceSet {
  readonly id: string;
  readonly rules: Readonly<Record<string, string>>;
  readonly checks: Readonly<Record<string, string>>;
  readonly conclusion?: {
    readonly id?: string;
    readonly settled: boolean;
    readonly possible: readonly string[];
  };
  readonly compliance?: {
    readonly all: Truth;
    readonly met: [number, number];
    readonly of: [number, number];
  };
  readonly options?: Readonly<Record<string, Choice>>;
}

/** The truths that an outcome is made of. */
export interface RuleTruths {
  readonly switchedOff: boolean;
  readonly inScope: Truth;
  readonly when: Truth;
  readonly expect: Truth;
}

/** A slow and plain second reading of the rule model, to hold the core against. */
export function referenceAssess(
  releases: readonly Release[],
  patient: Case,
): { sets: ReferenceSet[]; world: World } {
  const world = makeWorld(releases, patient);
  return { sets: releases.map((release) => assessSet(release, world)), world };
}

function assessSet(release: Release, world: World): ReferenceSet {
  const rules: Record<string, string> = {};
  const checks: Record<string, string> = {};
  for (const rule of release.rules) {
    const truths = truthsOf(release, rule, world);
    rules[rule.id] = outcomeOf(truths);
    if (rule.expect !== undefined) checks[rule.id] = checkWord(release, rule, truths, world);
  }
  const concluded = release.shape === 'decision' ? conclude(release, world) : undefined;
  const compliance = release.shape === 'checklist' ? comply(release, world) : undefined;
  const options = release.shape === 'choice' ? judgeChoices(release, world) : undefined;
  return {
    id: release.id,
    rules,
    checks,
    ...(concluded === undefined ? {} : { conclusion: withoutReasons(concluded) }),
    ...(compliance === undefined ? {} : { compliance }),
    ...(options === undefined ? {} : { options }),
  };
}

export function truthsOf(release: Release, rule: Rule, world: World): RuleTruths {
  const truth = (condition: Rule['when'], absent: Truth, blind = false) =>
    condition === undefined ? absent : holds(condition, release.conditions, world, blind);
  const population = truth(release.population?.when, 'true');
  const outside = population === 'false' && !rule.anyPopulation;
  const speaksAnyway = rule.anyPopulation || (rule.locked && population !== 'false');
  const parts = [truth(release.scope, 'true'), truth(rule.scope, 'true'), speaksAnyway ? 'true' : population];
  const expect = truth(rule.expect, 'unknown');
  return {
    switchedOff: rule.local?.change === 'switched-off' || truth(rule.scope, 'true', true) === 'false',
    inScope: outside ? 'false' : all(parts),
    when: rule.expect === undefined ? truth(rule.when, 'true') : not(expect),
    expect,
  };
}

function outcomeOf({ switchedOff, inScope, when }: RuleTruths): string {
  if (switchedOff) return 'switched-off';
  if (inScope === 'false') return 'not-in-scope';
  if (when === 'false') return 'does-not-apply';
  return inScope === 'true' && when === 'true' ? 'applies' : 'undetermined';
}

function checkWord(
  release: Release,
  rule: Rule,
  { switchedOff, inScope, expect }: RuleTruths,
  world: World,
): string {
  if (switchedOff) return 'switched-off';
  if (inScope === 'false') return 'not-applicable';
  if (expect === 'true') return 'met';
  if (inScope === 'true' && expect === 'false') return 'not-met';
  const open = openFactsOf(release, rule, world);
  const behind = open.flatMap((id) => baseFacts(id, world));
  const nothingThere = behind.length > 0 && behind.every((id) => world.know(id).recorded === 'false');
  return nothingThere ? 'not-recorded' : 'undetermined';
}

/** The facts of the leaves that leave a rule undecided. */
function openFactsOf(release: Release, rule: Rule, world: World): string[] {
  const population = rule.anyPopulation || rule.locked ? undefined : release.population?.when;
  const parts = [population, release.scope, rule.scope, rule.when, rule.expect];
  return parts.flatMap((part) => (part === undefined ? [] : openFacts(part, release.conditions, world)));
}

/** The supplied facts that leave a fact open. */
function baseFacts(id: string, world: World): string[] {
  const known = world.know(id);
  if (exact(world.fact(id), known)) return known.recorded === 'unknown' ? [id] : [];
  if (known.inputs.length > 0) return known.inputs.flatMap((input) => baseFacts(input, world));
  // A conclusion that waits for nothing has no supplied fact behind it.
  const isConcluded = world.fact(id).from !== undefined && 'conclusion' in (world.fact(id).from ?? {});
  return isConcluded && ['no-entry', 'derived'].includes(known.cause ?? '') ? [] : [id];
}

const withoutReasons = ({ waitsFor: _, ...conclusion }: Concluded) => conclusion;

export interface Concluded {
  readonly id?: string;
  readonly settled: boolean;
  readonly possible: readonly string[];
  /** The facts that keep it open. */
  readonly waitsFor: readonly string[];
}

/** Outside the population, or at another stage of care, silence is no conclusion. */
export function conclude(release: Release, world: World): Concluded {
  const limits = [release.population?.when, release.scope];
  const outside = limits.some((limit) => limit && holds(limit, release.conditions, world) === 'false');
  const concluding = (id: string, outcome: string) =>
    release.rules.filter(
      (rule) => rule.concludes === id && outcomeOf(truthsOf(release, rule, world)) === outcome,
    );
  const ids = (release.conclusions ?? []).map((conclusion) => conclusion.id);
  const reached = ids.find((id) => concluding(id, 'applies').length > 0);
  const higher = reached === undefined ? ids : ids.slice(0, ids.indexOf(reached));
  const open = higher.filter((id) => concluding(id, 'undetermined').length > 0);
  const id = reached ?? (outside ? undefined : release.defaultConclusion?.id);
  const waiting = open.flatMap((one) => concluding(one, 'undetermined'));
  return {
    ...(id === undefined ? {} : { id }),
    settled: open.length === 0,
    possible: [...open, ...(id === undefined ? [] : [id])],
    waitsFor: waiting.flatMap((rule) => openFactsOf(release, rule, world)),
  };
}

/** Nothing where no check can be applicable. */
function comply(release: Release, world: World): ReferenceSet['compliance'] {
  const checks = release.rules
    .filter((rule) => rule.expect !== undefined)
    .map((rule) => truthsOf(release, rule, world))
    .filter((truths) => !truths.switchedOff && truths.inScope !== 'false');
  if (checks.length === 0) return undefined;
  const met = checks.filter((check) => check.expect === 'true');
  const rest = checks.filter((check) => check.expect !== 'true');
  const mayBeMet = rest.filter((check) => check.expect === 'unknown');
  const applicable = rest.filter((check) => check.inScope === 'true');
  const failed = applicable.filter((check) => check.expect === 'false');
  const verdicts: Truth[] = checks.map((check) =>
    check.expect === 'true' ? 'true' : failed.includes(check) ? 'false' : 'unknown',
  );
  return {
    all: all(verdicts),
    met: [met.length, met.length + mayBeMet.length],
    of: [met.length + applicable.length, checks.length],
  };
}
