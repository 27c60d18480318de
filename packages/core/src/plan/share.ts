import { sameJson } from '../release/digest.ts';
import type { Fact } from '../release/fact.ts';
import type { Parameter, Table } from '../release/parameter.ts';
import type { Release } from '../release/release.ts';

/** What several releases say about one name must be the same. */
export function shareAcross(releases: readonly Release[], problems: string[]) {
  const merge = <T>(into: Map<string, T>, kind: string, id: string, value: T, from: Release): void => {
    const known = into.get(id);
    if (known !== undefined && !sameJson(known, value)) {
      problems.push(`${from.id}@${from.version}: its ${kind} ${id} differs from the one of another release`);
    }
    into.set(id, value);
  };
  const facts = new Map<string, Fact>();
  const parameters = new Map<string, Parameter>();
  const tables = new Map<string, Table>();
  const codes = new Map<string, readonly string[]>();
  const ids = new Set<string>();
  for (const release of releases) {
    if (ids.has(release.id)) problems.push(`${release.id}: two releases of one rule set`);
    ids.add(release.id);
    for (const fact of release.facts) merge(facts, 'fact', fact.id, fact, release);
    for (const parameter of release.parameters)
      merge(parameters, 'parameter', parameter.id, parameter, release);
    for (const table of release.tables) merge(tables, 'table', table.id, table, release);
    for (const [list, words] of Object.entries(release.codes))
      merge(codes, 'code list', list, Object.keys(words), release);
  }
  return { facts, parameters, tables, codes };
}
