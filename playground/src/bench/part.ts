import type { Fact, Release, Rule } from '@dwellset/core';

/** Sets whose conclusions a release reads, or those of its facts that are named as `fact id`. */
export const concludedIn = ({ facts }: Release, items?: ReadonlySet<string>): string[] =>
  facts.flatMap(({ id, from }) =>
    from && 'conclusion' in from && (items?.has(`fact ${id}`) ?? true) ? [from.conclusion] : [],
  );

/** Some rules of a release with the items that they read: no words, no proofs, no stock, on which no rule's end rests. */
export function partOf(release: Release, rules: readonly Rule[], items: ReadonlySet<string>): Release {
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
