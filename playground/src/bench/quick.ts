import { type AmendmentDocument, closureOf } from '@dwellset/authoring';
import type { CellValue, Constant, Release, Rule } from '@dwellset/core';
import { changeRules, isOutside, type Values, withValues } from './changed.ts';
import { isPlan, type Judge, planOf } from './judge.ts';
import { concludedIn, partOf } from './part.ts';

/** A judge of the rules that a change reaches; the other rules of the set end as published. */
export interface QuickJudge extends Judge {
  /** All rules of the set in the order in force. */
  readonly all: readonly string[];
}

/**
 * Answers how rules end while an amendment is still being built and checked, which takes several frames; that has the
 * last word. Only the rules that the changes reach are compiled, with what they read and nothing that is only said.
 */
export class Quick {
  readonly set: string;
  /** The set, and those whose conclusions it reads. */
  readonly #published: readonly Release[];
  readonly #reads = new WeakMap<Rule, ReadonlySet<string>>();

  constructor(set: string, published: readonly Release[]) {
    this.set = set;
    this.#published = published;
  }

  get #own(): Release {
    return this.#published.find(({ id }) => id === this.set)!;
  }

  /** Finds out what every rule reads, which the first change would have to wait for. */
  prepare(): void {
    for (const release of this.#published) for (const rule of release.rules) this.#readBy(release, rule);
  }

  /** Nothing where the build will refuse the changes, or something that only it can follow is among them. */
  judge({ amends }: AmendmentDocument): QuickJudge | undefined {
    const values: Values = new Map(
      amends.flatMap(({ changes }) =>
        changes.flatMap((change) => ('set' in change ? Object.entries(change.set) : [])),
      ) as [string, Constant | CellValue][],
    );
    if (this.#published.some(({ parameters }) => parameters.some((one) => isOutside(one, values))))
      return undefined;
    const now = new Map<string, Release>();
    let touched: ReadonlySet<string> = new Set();
    for (const release of this.#published) {
      const changes = amends.find(({ set }) => set === release.id)?.changes ?? [];
      const changed = changeRules(release.rules, changes);
      // What a set concludes may rest on any of its rules.
      if (!changed || (release.id !== this.set && changed.touched.size > 0)) return undefined;
      if (release.id === this.set) touched = changed.touched;
      now.set(release.id, withValues({ ...release, rules: changed.rules }, values));
    }
    const names = new Set([...values.keys()].map((path) => path.split('/')[0]!));
    const own = now.get(this.set)!;
    const rules = own.rules.filter((rule) => touched.has(rule.id) || this.#restsOn(this.#own, rule, names));
    const part = partOf(own, rules, new Set(rules.flatMap((rule) => [...this.#readBy(own, rule)])));
    const plan = planOf([part, ...this.#readFor(part, now, names)]);
    return isPlan(plan)
      ? { set: this.set, plan, rules: rules.map(({ id }) => id), all: own.rules.map(({ id }) => id) }
      : undefined;
  }

  /** The sets whose conclusions a release reads, directly or through another. */
  #readFor(
    part: Release,
    now: ReadonlyMap<string, Release>,
    names: ReadonlySet<string>,
    found = new Set<Release>(),
  ): Release[] {
    for (const id of concludedIn(part)) {
      const published = this.#published.find((one) => one.id === id)!;
      // As it is where nothing reaches it, so that what was read of every patient stands.
      const isReached = published.rules.some((rule) => this.#restsOn(published, rule, names));
      const { reads: _, ...release } = isReached ? now.get(id)! : published;
      const read = isReached ? release : published;
      if (!found.has(read)) this.#readFor(published, now, names, found.add(read));
    }
    return [...found];
  }

  /** Whether a rule, or one on whose conclusion it rests, reads one of these local choices or tables. */
  #restsOn(release: Release, rule: Rule, names: ReadonlySet<string>): boolean {
    const reads = this.#readBy(release, rule);
    if ([...names].some((id) => reads.has(`local choice ${id}`) || reads.has(`table ${id}`))) return true;
    return this.#published.some(
      (other) =>
        reads.has(`rule set ${other.id}`) && other.rules.some((one) => this.#restsOn(other, one, names)),
    );
  }

  #readBy(release: Release, rule: Rule): ReadonlySet<string> {
    const known = this.#reads.get(rule) ?? readBy(release, rule);
    this.#reads.set(rule, known);
    return known;
  }
}

/** What a rule reads, as `kind id`, with the sets whose conclusions are among it. */
function readBy(release: Release, rule: Rule): ReadonlySet<string> {
  const { items } = closureOf(release, rule);
  return new Set([...items, ...concludedIn(release, items).map((id) => `rule set ${id}`)]);
}
