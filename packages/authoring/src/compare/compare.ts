import { digest, type Release } from '@dwellset/core';
import { bumpOf } from './bump.ts';
import { closureOf } from './closure.ts';
import { type Difference, differences, type Pair, pairOf } from './differences.ts';
import { itemChanges } from './items.ts';
import { probesOf } from './probes.ts';
import {
  DIRECTIONS,
  type Direction,
  type ItemChange,
  type OutcomeChange,
  type ReleaseNamed,
  type Seed,
  type SetComparison,
  type Side,
} from './shape.ts';
import { witnessOf } from './witness.ts';

export interface CompareOptions {
  /** Most probes for a rule whose change no seed shows; none are needed where nothing that decides has changed. */
  readonly probes?: number;
}

const PROBES = 600;
const ABOUT_QUESTIONS: ReadonlySet<Direction> = new Set(['newly-undetermined', 'newly-settled']);

/**
 * Lays two releases of one rule set side by side: what reads otherwise, and what comes out otherwise on the given
 * cases. Pure: the same releases and cases give the same comparison. Either side may be absent.
 */
export function compareReleases(
  before: Side | undefined,
  after: Side | undefined,
  seeds: readonly Seed[],
  { probes = PROBES }: CompareOptions = {},
): SetComparison {
  const pair = pairOf(before, after);
  const items = before && after ? itemChanges(before[0], after[0]) : wholeSet(before, after);
  const found = new Found();
  const ran = { vignettes: 0, wardDays: 0, probes: 0, answers: 0 };
  const differing = { vignettes: 0, wardDays: 0 };
  const run = (seed: Seed): readonly Difference[] => {
    const { differ, answers } = differences(pair, seed.case);
    const count = seed.from === 'vignette' ? 'vignettes' : seed.from === 'ward' ? 'wardDays' : 'probes';
    ran[count] += 1;
    ran.answers += answers;
    if (count !== 'probes' && differ.length > 0) differing[count] += 1;
    found.add(seed, differ);
    return differ;
  };
  for (const seed of seeds) run(seed);
  for (const rule of rulesTouched(before, after, items)) {
    if (found.isShown(rule)) continue;
    for (const probe of probesOf(rule, [before, after], seeds, probes)) {
      if (run(probe).length > 0 && found.isShown(rule)) break;
    }
  }
  const outcomes = found.changes(pair, inOrder(before, after));
  return {
    set: pair.set,
    ...(before && { before: named(before[0]) }),
    ...(after && { after: named(after[0]) }),
    items,
    outcomes,
    ran,
    differing,
    ...bumpOf(items, outcomes),
  };
}

const named = (release: Release): ReleaseNamed => ({
  version: release.version,
  digest: digest(release),
  ...(release.amendment && { amendedBy: release.amendment.organisation }),
});

const wholeSet = (before: Side | undefined, after: Side | undefined): ItemChange[] =>
  ((after ?? before)?.[0].rules ?? []).map(({ id }) => ({
    kind: 'rule',
    id,
    change: after ? 'added' : 'removed',
    fields: [],
  }));

/** The rules of either side, in order, and the conclusion last. */
const inOrder = (before: Side | undefined, after: Side | undefined): string[] => [
  ...new Set([...(after?.[0].rules ?? []), ...(before?.[0].rules ?? [])].map(({ id }) => id)),
  'conclusion',
];

/** Rules that read something that has changed in more than its words, on either side; of a read set, anything. */
function rulesTouched(
  before: Side | undefined,
  after: Side | undefined,
  items: readonly ItemChange[],
): string[] {
  const moved = new Set(
    items
      .filter(({ change, fields }) => change !== 'changed' || fields.some(({ wording }) => !wording))
      .map(({ kind, id }) => `${kind} ${id}`),
  );
  const all = [...moved].some((item) => item.startsWith('set '));
  const readMoved = before?.slice(1).map(digest).join() !== after?.slice(1).map(digest).join();
  return [...new Set([before, after].flatMap((side) => side?.[0].rules.map(({ id }) => id) ?? []))].filter(
    (id) =>
      [before, after].some((side) => {
        const release = side?.[0];
        const rule = release?.rules.find((one) => one.id === id);
        if (release === undefined || rule === undefined) return false;
        const closure = closureOf(release, rule);
        const reads = [...closure.facts.keys()].some((fact) => fact.startsWith('conclusion.'));
        return all || (readMoved && reads) || [...closure.items].some((item) => moved.has(item));
      }),
  );
}

/** Differences gathered by rule and direction, with the cases that show them. */
class Found {
  readonly #groups = new Map<string, Seed[]>();

  add(seed: Seed, differ: readonly Difference[]): void {
    for (const key of new Set(differ.map(({ subject, direction }) => `${subject} ${direction}`))) {
      const seeds = this.#groups.get(key) ?? [];
      seeds.push(seed);
      this.#groups.set(key, seeds);
    }
  }

  /** Whether something settled was seen to change; a question more or less alone says too little. */
  isShown(subject: string): boolean {
    return DIRECTIONS.some(
      (direction) => !ABOUT_QUESTIONS.has(direction) && this.#groups.has(`${subject} ${direction}`),
    );
  }

  changes(pair: Pair, order: readonly string[]): OutcomeChange[] {
    return order.flatMap((subject) =>
      DIRECTIONS.flatMap((direction) => this.#change(pair, subject, direction)),
    );
  }

  #change(pair: Pair, subject: string, direction: Direction): OutcomeChange[] {
    const seeds = this.#groups.get(`${subject} ${direction}`);
    if (seeds === undefined) return [];
    const witness = witnessOf(pair, subject, direction, seeds);
    if (witness === undefined) return [];
    const count = (from: Seed['from']): number => seeds.filter((seed) => seed.from === from).length;
    return [{ subject, direction, vignettes: count('vignette'), wardDays: count('ward'), witness }];
  }
}
