import { and, type Node, type PlanRule, ruleTruths, type Truth, type TruthOf } from '@dwellset/core';
import { nodesOfRule } from '../coverage/decisions.ts';
import { placeAt } from '../coverage/places.ts';
import type { Region } from './region.ts';
import type { Finding } from './shape.ts';
import type { Subject } from './subject.ts';
import { amongVignettes, type Found, type Sought, seek } from './witness.ts';

/** A finding before it is known what it rests on and whether somebody has accepted it. */
export type Draft = Omit<Finding, 'set' | 'locked' | 'digest' | 'accepted'>;

export type Finder = (subject: Subject) => Iterable<Draft>;

export const nodesOf = ({ set }: Subject, rules: readonly PlanRule[]): Node[] => [
  ...new Set([set.population, set.gate].flatMap((node) => node ?? [])),
  ...rules.flatMap((rule) => nodesOfRule(set, rule)),
];

/** Whether a rule applies, over a table of truths. */
export const appliesIn =
  ({ set }: Subject, rule: PlanRule) =>
  (truthOf: TruthOf): Truth => {
    const { scope, when } = ruleTruths(set, rule, truthOf);
    return and(scope, when);
  };

/** A patient to whom all of these apply. */
export const allApply = (subject: Subject, rules: readonly PlanRule[]): Sought => ({
  nodes: nodesOf(subject, rules),
  holds: (truthOf) => rules.map((rule) => appliesIn(subject, rule)(truthOf)).reduce(and),
});

/**
 * Whether there is such a patient. What boxes settle by themselves needs no search: nobody, or somebody where no two
 * facts hang together; nor does what a vignette shows.
 */
export function existence(subject: Subject, region: Region | undefined, sought: Sought): Found | 'some' {
  if (region?.length === 0) return 'none';
  if (region !== undefined && !subject.alphabet(sought.kind).looseIn(region)) return 'some';
  // To look at the items of every vignette takes longer than to make a patient up.
  const shown = sought.kind === undefined && amongVignettes(subject, sought) !== undefined;
  return shown ? 'some' : seek(subject, sought);
}

export const placeOf = (subject: Subject, rule: PlanRule): Draft['place'] =>
  placeAt(subject.anchor(rule.rule.id));

/** Facts whose combinations were all looked at. */
export const proofOf = (
  subject: Subject,
  nodes: readonly Node[],
  kind?: string,
): NonNullable<Draft['proof']> => ({
  facts: [
    ...new Set(
      subject
        .scene(kind)
        .leavesUnder(nodes)
        .map(({ fact }) => fact),
    ),
  ],
});
