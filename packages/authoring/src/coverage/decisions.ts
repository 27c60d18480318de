import {
  and,
  type Condition,
  type Node,
  type Plan,
  type PlanRule,
  type PlanSet,
  ruleTruths,
  TRUE,
  type Truth,
  type TruthOf,
} from '@dwellset/core';
import { namedIn } from './named.ts';
import { type Anchor, below, placeAt } from './places.ts';
import type { Home, Part, Place } from './shape.ts';

/** One comparison, or one mention of a named condition, where an author wrote it. */
export interface Occurrence {
  readonly node: Node;
  readonly condition: Condition;
  readonly place: Place;
}

/** What a group of conditions decides together. */
export interface Decision {
  readonly home: Home;
  readonly occurrences: readonly Occurrence[];
  /** Everything that its outcome rests on. */
  readonly nodes: readonly Node[];
  /** Stock lists whose options it is read for; none where it is read once for the patient. */
  readonly kinds: readonly string[];
  readonly outcome: (truthOf: TruthOf) => Truth;
  /** Whether the patient is one whom these conditions are asked about. */
  readonly asked: (truthOf: TruthOf) => Truth;
}

export interface Anchors {
  readonly ruleSet: Anchor;
  readonly rule: (id: string) => Anchor;
}

/** Leaves from the top down; a named condition is one leaf where it is mentioned. */
function occurrencesIn(node: Node, condition: Condition, at: Anchor): Occurrence[] {
  const inner = (key: string, conditions: readonly Condition[]): Occurrence[] =>
    (node as Extract<Node, { of: readonly Node[] }>).of.flatMap((child, index) =>
      occurrencesIn(child, conditions[index]!, below(at, key, index)),
    );
  if ('all' in condition) return inner('all', condition.all);
  if ('any' in condition) return inner('any', condition.any);
  if ('not' in condition && node.kind === 'not') {
    return occurrencesIn(node.of[0], condition.not, below(at, 'not'));
  }
  return [{ node, condition, place: placeAt(at) }];
}

/** The conditions of the set itself, its named conditions, and those of its rules, as they stand in the documents. */
export function decisionsOf(plan: Plan, set: PlanSet, anchors: Anchors): Decision[] {
  const own = (
    home: Home,
    node: Node | undefined,
    condition: Condition | undefined,
    at: Anchor,
    kinds: readonly string[] = [],
  ): Decision[] =>
    node === undefined || condition === undefined
      ? []
      : [
          {
            home,
            occurrences: occurrencesIn(node, condition, at),
            nodes: [node],
            kinds,
            outcome: (truthOf) => truthOf(node),
            asked: () => TRUE,
          },
        ];
  const { release, population, gate, rules } = set;
  const { ruleSet } = anchors;
  const running = rules.filter(({ switchedOff }) => !switchedOff);
  return [
    ...own(
      { part: 'population' },
      population,
      release.population?.when,
      below(ruleSet, 'population', 'when'),
    ),
    ...own({ part: 'scope' }, gate, release.scope, below(ruleSet, 'scope')),
    ...[...namedIn(plan, set, running)].flatMap(([named, { node, kinds }]) =>
      own({ named }, node, release.conditions[named], below(ruleSet, 'conditions', named), kinds),
    ),
    ...running.flatMap((rule) => ofRule(set, rule, anchors.rule(rule.rule.id))),
  ];
}

/** The parts of one rule: those of the patient decide whether it speaks, those of an option what it says of it. */
function ofRule(set: PlanSet, plan: PlanRule, at: Anchor): Decision[] {
  const { rule, scope, when, expect } = plan;
  const limits = nodesOfRule(set, plan);
  const scoped = (truthOf: TruthOf): Truth => ruleTruths(set, plan, truthOf).scope;
  const speaks = (truthOf: TruthOf): Truth => and(scoped(truthOf), ruleTruths(set, plan, truthOf).when);
  const part = (
    name: Part,
    node: Node | undefined,
    condition: Condition | undefined,
    rest: Pick<Decision, 'outcome' | 'asked'> & Partial<Decision>,
    ...pointer: string[]
  ): Decision[] =>
    node === undefined || condition === undefined
      ? []
      : [
          {
            home: { rule: rule.id, part: name },
            occurrences: occurrencesIn(node, condition, below(at, name, ...pointer)),
            nodes: limits,
            kinds: [],
            ...rest,
          },
        ];
  const perOption = (node: Node | undefined) => ({
    outcome: (truthOf: TruthOf) => and(speaks(truthOf), truthOf(node)),
    asked: speaks,
    nodes: node ? [...limits, node] : limits,
    kinds: rule.of === undefined ? [] : [rule.of],
  });
  const preferred = plan.prefers && 'options' in plan.prefers ? plan.prefers.options : undefined;
  const preference = rule.prefers && 'options' in rule.prefers ? rule.prefers.options : undefined;
  return [
    // A check that is met says so only within its scope; any other rule has to speak before its scope matters.
    ...part('scope', scope, rule.scope, { outcome: expect ? scoped : speaks, asked: () => TRUE }),
    ...part('when', when, rule.when, { outcome: speaks, asked: scoped }),
    ...part('expect', expect, rule.expect, { outcome: speaks, asked: scoped }),
    ...part('excludes', plan.excludes, rule.excludes, perOption(plan.excludes)),
    ...part('prefers', preferred, preference, perOption(preferred), 'options'),
    ...part('remarks', plan.remarks, rule.remarks, perOption(plan.remarks)),
  ];
}

/** What the outcome of a rule rests on. */
export const nodesOfRule = (set: PlanSet, { rule, scope, when, expect }: PlanRule): Node[] =>
  [rule.anyPopulation ? undefined : set.population, set.gate, scope, when, expect].flatMap((node) =>
    node === undefined ? [] : [node],
  );
