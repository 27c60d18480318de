import { and, type Node, not, type PlanRule, ruleTruths, TRUE } from '@dwellset/core';
import { allApply, appliesIn, type Draft, existence, nodesOf, placeOf, proofOf } from '../draft.ts';
import type { Region } from '../region.ts';
import { itemNodeOf, type Subject } from '../subject.ts';
import { type Found, type Sought, seek, shownBy } from '../witness.ts';

/** Rules that no patient can make speak, and choice rules that no item can ever concern. */
export function* neverApplies(subject: Subject): Generator<Draft> {
  for (const rule of subject.rules) {
    const nodes = nodesOf(subject, [rule]);
    const common = { of: [rule.rule.id], place: placeOf(subject, rule) } as const;
    const somebody = somebodyFor(subject, rule, subject.applies(rule), allApply(subject, [rule]));
    if (somebody === 'none' || somebody === 'unsure') {
      // A local choice that silences a rule is there to do so.
      if (subject.isSilencedByChoice(rule)) continue;
      yield { kind: 'never-applies', ...common, ...verdict(somebody), proof: proofOf(subject, nodes) };
      continue;
    }
    const item = itemNodeOf(rule);
    const kind = rule.rule.of;
    if (item === undefined || kind === undefined) continue;
    const withItem = [...nodes, item];
    const something = somebodyFor(subject, rule, subject.concerns(rule), {
      nodes: withItem,
      holds: (truthOf) => and(appliesIn(subject, rule)(truthOf), truthOf(item)),
      kind,
    });
    if (something !== 'none' && something !== 'unsure') continue;
    const proof = proofOf(subject, withItem, kind);
    yield { kind: 'concerns-no-item', ...common, ...verdict(something), proof };
  }
}

/** A rule that does not wait for the population may speak to those alone who leave it open. */
function somebodyFor(
  subject: Subject,
  rule: PlanRule,
  region: Region | undefined,
  sought: Sought,
): Found | 'some' {
  const known = existence(subject, region, sought);
  if (known !== 'none' || !subject.speaksToUnestablished(rule)) return known;
  return seek(subject, { ...sought, ifMissing: (truthOf) => sought.holds(truthOf) === TRUE });
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
    if (condition === undefined || !asksForFacts(condition)) continue;
    const spared = subject.all([subject.inScope(rule), subject.looksFor(rule, false)]);
    const nodes = nodesOf(subject, [rule]);
    const found = somebodyFor(subject, rule, spared, {
      nodes,
      holds: (truthOf) => {
        const { scope, when } = ruleTruths(subject.set, rule, truthOf);
        return and(scope, not(when));
      },
    });
    if (found !== 'none' && found !== 'unsure') continue;
    const example = seek(subject, allApply(subject, [rule]));
    // What is about nobody speaks to nobody, and is another finding.
    if (example === 'none') continue;
    yield {
      kind: 'always-applies',
      of: [rule.rule.id],
      place: placeOf(subject, rule),
      ...verdict(example === 'unsure' ? 'unsure' : found),
      ...(example !== 'unsure' && {
        witness: shownBy(subject, example.patient, [`rules.${rule.rule.id}`]),
      }),
      proof: proofOf(subject, nodes),
    };
  }
}

const asksForFacts = (node: Node): boolean =>
  'of' in node ? node.of.some(asksForFacts) : node.kind === 'fact';

/** In the order of the set. */
export const pairsOf = <T extends PlanRule>(rules: readonly T[]): (readonly [T, T])[] =>
  rules.flatMap((rule, index) => rules.slice(index + 1).map((other) => [rule, other] as const));
