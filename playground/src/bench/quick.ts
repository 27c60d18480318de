import { type AmendmentDocument, type Change, closureOf } from '@dwellset/authoring';
import type { CellValue, Constant, Fact, Parameter, Release, Rule, Table } from '@dwellset/core';
import { isPlan, type Judge, planOf } from './judge.ts';

type Values = ReadonlyMap<string, Constant | CellValue>;

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
  readonly #reads = new Map<Rule, ReadonlySet<string>>();

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
    const part = partOf(own, rules);
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

const isOutside = ({ id, range }: Parameter, values: Values): boolean => {
  const value = values.get(id);
  return range !== undefined && typeof value === 'number' && (value < range[0] || value > range[1]);
};

const concludedIn = ({ facts }: Release, items?: ReadonlySet<string>): string[] =>
  facts.flatMap(({ id, from }) =>
    from && 'conclusion' in from && (items?.has(`fact ${id}`) ?? true) ? [from.conclusion] : [],
  );

interface Changed {
  readonly rules: readonly Rule[];
  /** Those that are others than published. */
  readonly touched: ReadonlySet<string>;
}

/** The rules of a set with an author's changes; words and urgency are no matter of how a rule ends. */
function changeRules(published: readonly Rule[], changes: readonly Change[]): Changed | undefined {
  const rules = [...published];
  const touched = new Set<string>();
  for (const change of changes) {
    if ('add' in change) {
      const { add, after, reason } = change;
      const before = after === undefined ? rules.length - 1 : rules.findIndex(({ id }) => id === after);
      if (rules.some(({ id }) => id === add.id)) return undefined;
      rules.splice(before + 1, 0, { ...(add as Rule), local: { change: 'added', reason } });
      touched.add(add.id);
    } else if ('replace' in change || 'switchOff' in change) {
      const id = 'replace' in change ? change.replace.id : change.switchOff;
      const at = rules.findIndex((rule) => rule.id === id);
      const rule = rules[at];
      // Refused by the build, with the reason.
      if (rule === undefined || rule.locked) return undefined;
      const { reason } = change;
      rules[at] =
        'replace' in change
          ? { ...(change.replace as Rule), local: { change: 'replaced', reason } }
          : { ...rule, local: { change: 'switched-off', reason } };
      touched.add(id);
    }
  }
  return { rules, touched };
}

function withValues(release: Release, values: Values): Release {
  const parameters = release.parameters.map((one) =>
    values.has(one.id) ? { ...one, value: values.get(one.id) as Constant } : one,
  );
  return { ...release, parameters, tables: release.tables.map((table) => withCells(table, values)) };
}

function withCells(table: Table, values: Values): Table {
  const own = [...values].filter(([path]) => path.startsWith(`${table.id}/`));
  if (own.length === 0) return table;
  const rows: Record<string, Table['rows'][string]> = { ...table.rows };
  for (const [path, value] of own) {
    const [, row = '', column = ''] = path.split('/');
    rows[row] = { ...rows[row], [column]: { ...rows[row]?.[column], value: value as CellValue } };
  }
  return { ...table, rows };
}

/** Some rules of a release with what they read: no words, no proofs, no stock, on which no rule's end rests. */
function partOf(release: Release, rules: readonly Rule[]): Release {
  const items = new Set(rules.flatMap((rule) => [...closureOf(release, rule).items]));
  const { reads: _, population, scope, ...all } = release;
  return {
    ...all,
    ...(rules.length > 0 && population && { population }),
    ...(rules.length > 0 && scope && { scope }),
    facts: withOrdered(release.facts, items),
    conditions: Object.fromEntries(
      Object.entries(release.conditions).filter(([name]) => items.has(`condition ${name}`)),
    ),
    parameters: release.parameters.filter(({ id }) => items.has(`local choice ${id}`)),
    tables: release.tables.filter(({ id }) => items.has(`table ${id}`)),
    stock: {},
    evidence: [],
    sources: [],
    hazards: [],
    rules: rules.map(({ advice: _, excludes: __, prefers: ___, remarks: ____, of: _____, ...rule }) => rule),
  };
}

/** Facts that are read, with those before or after which they must lie: each is in doubt where the order is broken. */
function withOrdered(facts: readonly Fact[], items: ReadonlySet<string>): readonly Fact[] {
  const wanted = new Set(facts.filter(({ id }) => items.has(`fact ${id}`)).map(({ id }) => id));
  const stated = facts.filter(({ from }) => from === undefined);
  for (let size = 0; size !== wanted.size; ) {
    size = wanted.size;
    for (const { id, notBefore } of stated) {
      if (notBefore !== undefined && (wanted.has(id) || wanted.has(notBefore))) wanted.add(id).add(notBefore);
    }
  }
  return facts.filter(({ id }) => wanted.has(id));
}
