import { compile, type Plan, type Release } from '@dwellset/core';
import { scenesOf } from '../boxes/scene.ts';
import { releasesFor } from '../build/buildRelease.ts';
import { anchorOfRule, below, placeAt } from '../coverage/places.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { momentOf } from '../vignettes/moment.ts';
import {
  isPlan,
  planOf,
  type ReadyVignette,
  type VignetteOptions,
  vignettesOf,
} from '../vignettes/runVignettes.ts';
import { defaultEdits, withChoice } from './defaults.ts';
import { factsBehind, missedAlone } from './further.ts';
import { differenceIn, missedIn, type NoticedBy, noticedBy, type Read, readAll } from './notice.ts';
import { type Patch, patched, rulesUnder } from './patch.ts';
import { type Planted, plantIn } from './plant.ts';
import type { Mistake, Mutation, Noticed, SetMutation, Survivor, Tally } from './shape.ts';
import { tell } from './telling.ts';
import { type Together, together } from './together.ts';

export interface MutateOptions extends VignetteOptions {
  /** Plants mistakes only in what this rule rests on. */
  readonly rule?: string;
}

/**
 * Plants every mistake of a closed list into each set, one at a time, and says which of them its vignettes do not
 * notice, each with a patient who would have shown it. Pure.
 */
export function mutate(library: Library, { set: only, rule, ...options }: MutateOptions = {}): Mutation {
  const sets = [...library.sets.values()].filter(({ id }) => only === undefined || id === only);
  const asPublished = rule === undefined && Object.keys(options).length === 0;
  return {
    sets: sets.map((set) =>
      asPublished ? mutateOnce(library, set) : mutateSet(library, set, rule, options),
    ),
  };
}

/** A library never changes, and its published sets are tried for the gate and for whoever reads what it found. */
const published = new WeakMap<Library, Map<string, SetMutation>>();

function mutateOnce(library: Library, set: LibrarySet): SetMutation {
  const sets = published.get(library) ?? new Map<string, SetMutation>();
  published.set(library, sets);
  const known = sets.get(set.id) ?? mutateSet(library, set, undefined, {});
  sets.set(set.id, known);
  return known;
}

const ALLOW = { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] } as const;

function mutateSet(
  library: Library,
  set: LibrarySet,
  rule: string | undefined,
  options: Omit<VignetteOptions, 'set'>,
): SetMutation {
  const vignettes = vignettesOf(set);
  const refuse = (refused: readonly string[]): SetMutation => ({
    set: set.id,
    vignettes: vignettes.length,
    refused,
    all: tally([], []),
    locked: tally([], []),
    noticed: [],
    survivors: [],
  });
  const plan = planOf(library, set.id, options);
  if (!isPlan(plan)) return refuse(plan);
  const releases = releasesFor(library, set.id, options);
  const release = releases[0]!;
  const planted = [
    ...plantIn(release, {
      ruleSet: { document: set.ruleSet.document, pointer: '' },
      rule: (id) => anchorOfRule(library, set, id, options.hospital),
    }),
    ...plantInChoices(library, release),
  ].filter(({ mistake }) => rule === undefined || mistake.rules.includes(rule));
  const beside = together(
    releases,
    planted.map(({ patch }) => patch),
  );
  const reads = readAll(beside, vignettes);
  // A vignette that fails by itself would notice everything.
  const failing = reads.filter((read) => missedIn(read, beside.own).length > 0);
  if (failing.length > 0) {
    return refuse(
      failing.map(({ rule: of, id }) => `the vignette \`${of}/${id}\` does not come out as it must`),
    );
  }
  const { noticed, survivors } = tryAll({ plan, releases, planted, beside, reads, vignettes });
  const mistakes = planted.map(({ mistake }) => mistake);
  return {
    set: set.id,
    vignettes: vignettes.length,
    all: tally(mistakes, survivors),
    locked: tally(
      mistakes.filter(({ locked }) => locked),
      survivors.filter(({ locked }) => locked),
    ),
    noticed,
    survivors,
  };
}

function plantInChoices(library: Library, release: Release): Planted[] {
  return release.parameters.flatMap((parameter): Planted[] => {
    const found = library.parameters.get(parameter.id);
    if (found === undefined) return [];
    return defaultEdits(release, parameter).map((value): Planted => {
      const patch: Patch = { parameter: parameter.id, value };
      const rules = rulesUnder(release, patch);
      return {
        patch,
        mistake: {
          kind: 'default',
          home: { parameter: parameter.id },
          place: placeAt(below(found, 'default')),
          rules: rules.map(({ id }) => id),
          locked: rules.some(({ locked }) => locked === true),
          before: parameter.value,
          after: value,
        },
      };
    });
  });
}

interface Tried {
  readonly plan: Plan;
  readonly releases: readonly Release[];
  readonly planted: readonly Planted[];
  readonly beside: Together;
  readonly reads: readonly Read[];
  readonly vignettes: readonly ReadyVignette[];
}

function tryAll(tried: Tried): Pick<SetMutation, 'noticed' | 'survivors'> {
  const { plan, releases, planted, beside, reads, vignettes } = tried;
  const release = releases[0]!;
  const scenes = scenesOf(beside.own.plan, momentOf(vignettes));
  const noticed: Noticed[] = [];
  const survivors: Survivor[] = [];
  planted.forEach(({ mistake, patch }, index) => {
    const variant = beside.variants[index]!;
    // Those of a rule that the mistake is in are the likeliest to fail.
    const first = (rule: string): number => (mistake.rules.includes(rule) ? 0 : 1);
    const ordered = [...reads].sort((a, b) => first(a.rule) - first(b.rule));
    const withMistake = once(() => compile(changed(releases, patch), ALLOW));
    // A choice also enters where facts are derived, and where a conclusion is read.
    const further = 'parameter' in patch ? factsBehind(releases, patch.parameter) : [];
    const alone = (): NoticedBy | undefined => {
      for (const read of further.length === 0 ? [] : ordered) {
        const missed = missedAlone(read, withMistake(), release.id, further);
        if (missed.length > 0) return { read, differences: missed.map(differenceIn) };
      }
      return undefined;
    };
    const by = noticedBy(ordered, beside, variant) ?? alone();
    if (by) {
      const { read, differences } = by;
      const telling = { case: read.evaluation.case, differences };
      noticed.push({ ...mistake, by: { rule: read.rule, vignette: read.id }, telling });
      return;
    }
    const told = tell(beside.own, variant, { asItStands: plan, withMistake }, scenes);
    if (further.length === 0) survivors.push({ ...mistake, ...told });
    else {
      const { looked, ...rest } = told;
      survivors.push({ ...mistake, ...rest, verdict: 'unnoticed', looked: { ...looked, complete: false } });
    }
  });
  return { noticed, survivors };
}

const changed = (releases: readonly Release[], patch: Patch): readonly Release[] =>
  'parameter' in patch
    ? withChoice(releases, patch.parameter, patch.value)
    : [patched(releases[0]!, patch), ...releases.slice(1)];

/** Most mistakes are told without the plan that they would make; it is compiled when somebody looks at it. */
function once<T>(make: () => T): () => T {
  const made: T[] = [];
  return () => {
    if (made.length === 0) made.push(make());
    return made[0]!;
  };
}

function tally(planted: readonly Mistake[], survivors: readonly Survivor[]): Tally {
  const withoutEffect = survivors.filter(({ verdict }) => verdict === 'without-effect').length;
  const unnoticed = survivors.length - withoutEffect;
  const counted = planted.length - withoutEffect;
  const noticed = counted - unnoticed;
  return {
    planted: planted.length,
    noticed,
    withoutEffect,
    percent: counted === 0 ? 100 : Math.floor((noticed * 1000) / counted) / 10,
  };
}
