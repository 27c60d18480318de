import { and, type Node, not, type PlanRule, ruleTruths } from '@dwellset/core';
import { allApply, appliesIn, type Draft, existence, nodesOf, placeOf, proofOf } from '../draft.ts';
import { itemNodeOf, type Subject } from '../subject.ts';

/** Rules that no patient can make speak, and choice rules that no item can ever concern. */
export function* neverApplies(subject: Subject): Generator<Draft> {
  for (const rule of subject.rules) {
    const nodes = nodesOf(subject, [rule]);
    const common = { of: [rule.rule.id], place: placeOf(subject, rule) } as const;
    const somebody = existence(subject, subject.applies(rule), allApply(subject, [rule]));
    if (somebody === 'none' || somebody === 'unsure') {
      yield { kind: 'never-applies', ...common, ...verdict(somebody), proof: proofOf(subject, nodes) };
      continue;
    }
    const item = itemNodeOf(rule);
    const kind = rule.rule.of;
    if (item === undefined || kind === undefined) continue;
    const withItem = [...nodes, item];
    const something = existence(subject, subject.concerns(rule), {
      nodes: withItem,
      holds: (truthOf) => and(appliesIn(subject, rule)(truthOf), truthOf(item)),
      kind,
    });
    if (something !== 'none' && something !== 'unsure') continue;
    const proof = proofOf(subject, withItem, kind);
    yield { kind: 'concerns-no-item', ...common, ...verdict(something), proof };
  }
}

const verdict = (found: 'none' | 'unsure') =>
  ({ certainty: found === 'none' ? 'certain' : 'possible' }) as const;

/**
 * Rules that speak to everybody whom they are about, although they ask for something. A rule that asks nothing, or
 * only for a local choice, is meant to.
 */
export function* alwaysApplies(subject: Subject): Generator<Draft> {
  for (const rule of subject.rules) {
    const condition = rule.expect ?? rule.when;
    if (condition === undefined || !asksForFacts(condition) || subject.applies(rule)?.length === 0) continue;
    const spared = subject.all([subject.inScope(rule), subject.looksFor(rule, false)]);
    const nodes = nodesOf(subject, [rule]);
    const found = existence(subject, spared, {
      nodes,
      holds: (truthOf) => {
        const { scope, when } = ruleTruths(subject.set, rule, truthOf);
        return and(scope, not(when));
      },
    });
    if (found !== 'none' && found !== 'unsure') continue;
    yield {
      kind: 'always-applies',
      of: [rule.rule.id],
      place: placeOf(subject, rule),
      ...verdict(found),
      proof: proofOf(subject, nodes),
    };
  }
}

const asksForFacts = (node: Node): boolean =>
  'of' in node ? node.of.some(asksForFacts) : node.kind === 'fact';

/** In the order of the set. */
export const pairsOf = <T extends PlanRule>(rules: readonly T[]): (readonly [T, T])[] =>
  rules.flatMap((rule, index) => rules.slice(index + 1).map((other) => [rule, other] as const));
