import type { Fact } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import type { AmendmentDocument } from '../documents/amendment.ts';
import type { Library } from '../library/shape.ts';
import type { Refusals } from './refusals.ts';

/** Adds the sources, evidence and facts of a hospital; none may take the name of a published one, or change it. */
export function addLocalDocuments(library: Library, amendment: AmendmentDocument, refusals: Refusals) {
  const { sources = [], evidence = [], facts = [] } = amendment;
  sources.forEach(({ id, kind }, index) => {
    if (library.sources.has(id)) shadowed(refusals, `/sources/${index}/id`, id, 'a published source');
    if (kind !== 'local-policy') {
      const message = `the source \`${id}\` is \`${kind}\`, and an amendment states sources of its own hospital only`;
      refusals.add(`/sources/${index}/kind`, 'not-local', message, {
        expected: 'local-policy',
        received: kind,
      });
    }
  });
  evidence.forEach(({ id }, index) => {
    if (library.evidence.has(id)) shadowed(refusals, `/evidence/${index}/id`, id, 'a published statement');
  });
  const taken = takenFactIds(library);
  const own = new Set(facts.map(({ id }) => id));
  facts.forEach(({ id, notBefore }, index) => {
    const by = taken.get(id);
    if (by !== undefined) shadowed(refusals, `/facts/${index}/id`, id, by);
    // Where the order of two instants is broken both become unknown: a local fact could blind a published one.
    if (notBefore !== undefined && !own.has(notBefore)) {
      const message = `\`${id}\` may not be measured against \`${notBefore}\`, which is no local fact and would become unknown with it`;
      refusals.add(`/facts/${index}/notBefore`, 'local-order', message);
    }
  });
  return (parts: Parts): Parts => ({
    ...parts,
    sources: new Map([...sources.map((source) => [source.id, source] as const), ...parts.sources]),
    evidence: new Map([...evidence.map((entry) => [entry.id, entry] as const), ...parts.evidence]),
    facts: withLocalFacts(parts, facts),
  });
}

/** Local facts come after the dictionary and before what the set derives. */
function withLocalFacts({ facts, ruleSet }: Parts, local: readonly Fact[]): Map<string, Fact> {
  const derived = new Set(ruleSet.derived.map(({ id }) => id));
  const dictionary = [...facts].filter(([id]) => !derived.has(id));
  const own = local.filter(({ id }) => !facts.has(id)).map((fact) => [fact.id, fact] as const);
  return new Map([...dictionary, ...own, ...ruleSet.derived.map((fact) => [fact.id, fact] as const)]);
}

/** One name space: a placeholder must not change what it means. */
function takenFactIds(library: Library): ReadonlyMap<string, string> {
  const taken = new Map<string, string>();
  for (const { ruleSet } of library.sets.values()) {
    for (const { id } of ruleSet.value.derived) taken.set(id, `a fact that \`${ruleSet.value.id}\` derives`);
  }
  for (const id of library.tables.keys()) taken.set(id, 'a published table');
  for (const id of library.parameters.keys()) taken.set(id, 'a published parameter');
  for (const id of library.facts.keys()) taken.set(id, 'a fact of the dictionary');
  return taken;
}

const shadowed = (refusals: Refusals, pointer: string, id: string, by: string): void =>
  refusals.add(pointer, 'shadowed-id', `\`${id}\` is already ${by} and may not be stated again`);
