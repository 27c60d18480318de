import { and, not } from '@dwellset/core';
import { placeAt } from '../../coverage/places.ts';
import { appliesIn, type Draft, nodesOf, proofOf } from '../draft.ts';
import type { Subject } from '../subject.ts';
import { seek, shownBy } from '../witness.ts';

/**
 * A decision without a default that comes to no conclusion about a patient within its limits, of whom everything that
 * matters is known. Where there is a default, that is what it says of them.
 */
export function* gap(subject: Subject): Generator<Draft> {
  const { release, set, rules, documents } = subject;
  if (release.conclusions === undefined || release.defaultConclusion !== undefined) return;
  const concluding = rules.filter(({ rule }) => rule.concludes !== undefined);
  const found = seek(subject, {
    nodes: nodesOf(subject, concluding),
    holds: (truthOf) =>
      concluding
        .map((rule) => not(appliesIn(subject, rule)(truthOf)))
        .reduce(and, and(truthOf(set.population), truthOf(set.gate))),
  });
  if (found === 'none') return;
  yield {
    kind: 'gap',
    of: ['conclusion'],
    place: placeAt({ document: documents.ruleSet.document, pointer: '/conclusions' }),
    ...(found === 'unsure'
      ? { certainty: 'possible', proof: proofOf(subject, nodesOf(subject, concluding)) }
      : {
          certainty: 'certain',
          witness: shownBy(subject, found.patient, ['conclusion']),
        }),
  };
}
