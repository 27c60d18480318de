import { DERIVATION_KINDS, kindOf } from '../facts/derivations/kinds.ts';
import type { Derivation, Fact } from '../release/fact.ts';
import type { Release } from '../release/release.ts';

/** Facts that differ from option to option. */
export function optionFacts(facts: readonly Fact[]): ReadonlySet<string> {
  const found = new Set<string>();
  for (const fact of facts) {
    const reads = fact.from ? kindOf(fact.from).facts(fact.from) : [];
    if (fact.id.startsWith('option.') || reads.some((id) => found.has(id))) found.add(fact.id);
  }
  return found;
}

/** What a derived fact reads: the facts it names, or all those of the rule set whose conclusion it is. */
function readBy(
  { id }: Fact,
  from: Derivation,
  releases: readonly Release[],
  problems: string[],
): readonly string[] {
  if (!('conclusion' in from)) return kindOf(from).facts(from);
  const read = releases.find((release) => release.id === from.conclusion);
  if (read?.shape === 'decision') return read.facts.map((fact) => fact.id);
  problems.push(`the fact ${id} reads the conclusion of ${from.conclusion}, which is not among the releases`);
  return [];
}

/** Derived facts after what they read. */
export function inReadingOrder(
  facts: ReadonlyMap<string, Fact>,
  releases: readonly Release[],
  problems: string[],
): Fact[] {
  const ordered = new Map<string, Fact>();
  const visit = (fact: Fact, open: readonly string[]): void => {
    if (ordered.has(fact.id)) return;
    if (open.includes(fact.id)) {
      problems.push(`the fact ${fact.id} is derived from itself`);
      return;
    }
    if (fact.from) {
      if (!(DERIVATION_KINDS as readonly string[]).includes(Object.keys(fact.from)[0] ?? '')) {
        problems.push(`the fact ${fact.id} has an unknown derivation`);
        return;
      }
      for (const id of readBy(fact, fact.from, releases, problems)) {
        const input = facts.get(id);
        if (input) visit(input, [...open, fact.id]);
        else problems.push(`the fact ${fact.id} is derived from ${id}, which is not known`);
      }
    }
    ordered.set(fact.id, fact);
  };
  for (const fact of facts.values()) visit(fact, []);
  return [...ordered.values()];
}
