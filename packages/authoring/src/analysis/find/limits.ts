import { TRUE } from '@dwellset/core';
import { decisionsOf } from '../../coverage/decisions.ts';
import type { Home } from '../../coverage/shape.ts';
import type { Draft } from '../draft.ts';
import type { Subject } from '../subject.ts';

const nameOf = (home: Home): string =>
  'named' in home ? home.named : 'rule' in home ? `${home.rule}/${home.part}` : home.part;

/**
 * Comparisons that come out alike for every value their fact can have: a limit beyond what is possible, or off the
 * steps of the fact, a list that names every code or none that occurs. They look like a condition and are none.
 */
export function* limitsWithoutEffect(subject: Subject): Generator<Draft> {
  const { plan, set, documents } = subject;
  const leaves = new Map([...plan.patient.leaves, ...plan.option.leaves].map((leaf) => [leaf.at, leaf]));
  const perOption = new Set(plan.option.leaves.map(({ at }) => at));
  const ruleSet = { document: documents.ruleSet.document, pointer: '' };
  const decisions = decisionsOf(plan, set, { ruleSet, rule: (id) => subject.anchor(id) });
  for (const { home, occurrences, kinds } of decisions) {
    for (const { node, place } of occurrences) {
      const leaf = node.kind === 'fact' ? leaves.get(node.at) : undefined;
      if (leaf === undefined || node.kind !== 'fact' || leaf.test.kind === 'recorded') continue;
      const kind = perOption.has(leaf.at) ? kinds[0] : undefined;
      const truth = subject.alphabet(kind).settledTruth(leaf.at);
      if (truth === undefined) continue;
      yield {
        kind: 'limit-without-effect',
        of: [nameOf(home), leaf.fact, node.operator],
        certainty: 'certain',
        place,
        settled: { fact: leaf.fact, truth: truth === TRUE },
        proof: { facts: [leaf.fact] },
      };
    }
  }
}
