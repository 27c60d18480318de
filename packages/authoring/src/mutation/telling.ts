import {
  and,
  FALSE,
  type Node,
  type Plan,
  type PlanRule,
  type PlanSet,
  type RuleTruths,
  ruleTruths,
  TRUE,
  type Truth,
  type TruthOf,
  UNKNOWN,
} from '@dwellset/core';
import { patientsOf } from '../boxes/patients.ts';
import type { Facts, Scene, Scenes, Seat } from '../boxes/scene.ts';
import { type Box, type Goal, search } from '../boxes/search.ts';
import { variablesOf } from '../boxes/variables.ts';
import { differing, saidBy } from '../boxes/visible.ts';
import { nodesOfRule } from '../coverage/decisions.ts';
import { reader } from '../coverage/truths.ts';
import type { Survivor, TellingCase } from './shape.ts';
import type { Variant } from './together.ts';

/** What was found out about a mistake that no vignette notices. */
export type Told = Pick<Survivor, 'verdict' | 'looked' | 'telling'>;

/** Both plans, each compiled by itself: a difference counts only where these show it. */
export interface Plans {
  readonly asItStands: Plan;
  /** Compiled when asked for: that a mistake has no effect is proven without it. */
  readonly withMistake: () => Plan;
}

/**
 * Looks for a patient who tells a set with a mistake from the set as it stands; first among patients of whom
 * everything that matters is known, then among those of whom some of it is missing. Without effect is a mistake only
 * where both searches came to their end and found none.
 */
export function tell(own: Variant, variant: Variant, plans: Plans, scenes: Scenes): Told {
  const set = own.set.release.id;
  const facts = new Set<string>();
  let boxes = 0;
  let complete = true;
  for (const missing of [false, true]) {
    for (const { seat, goal } of goalsOf(own, variant)) {
      const scene = scenes(seat);
      const variables = variablesOf(scene, goal.nodes, { missing });
      const differs = (truths: Uint8Array): boolean =>
        goal.decide(reader(truths)) === TRUE || (missing && goal.atEnd?.(reader(truths)) === true);
      let telling: TellingCase | undefined;
      const searched = search(variables.variables, variables.start, goal, (box) => {
        telling = confirmed(scene, box, differs, plans, set);
        return telling !== undefined;
      });
      boxes += searched.boxes;
      for (const { fact } of variables.variables) facts.add(fact);
      complete &&= searched.exhausted && searched.rejected === 0 && variables.complete;
      if (telling) {
        return { verdict: 'unnoticed', looked: { boxes, facts: [...facts], complete: false }, telling };
      }
    }
  }
  return {
    verdict: complete ? 'without-effect' : 'unnoticed',
    looked: { boxes, facts: [...facts], complete },
  };
}

/** The fewest facts of a box that still make the difference, if both plans, each by itself, show it. */
function confirmed(
  scene: Scene,
  box: Box,
  differs: (truths: Uint8Array) => boolean,
  { asItStands, withMistake }: Plans,
  set: string,
): TellingCase | undefined {
  const shows = (facts: Facts): boolean => differs(scene.look(facts).truths);
  for (const patient of patientsOf(scene, box, shows)) {
    const differences = differing(saidBy(asItStands, set, patient), saidBy(withMistake(), set, patient));
    if (differences.length > 0) return { case: patient, differences };
  }
  return undefined;
}

const settled = ({ outcome }: RuleTruths): boolean => outcome !== 'undetermined';

/** For the patient, and where a rule speaks of options for each of these and for any item in the hand. */
function* goalsOf(own: Variant, variant: Variant): Generator<{ readonly seat: Seat; readonly goal: Goal }> {
  const { set } = own;
  const id = set.release.id;
  for (const [index, rule] of set.rules.entries()) {
    const other = variant.set.rules[index]!;
    const limits = [...nodesOfRule(set, rule), ...nodesOfRule(variant.set, other)];
    const before = (truthOf: TruthOf) => ruleTruths(set, rule, truthOf);
    const after = (truthOf: TruthOf) => ruleTruths(variant.set, other, truthOf);
    if (!sameNodes(nodesOfRule(set, rule), nodesOfRule(variant.set, other))) {
      const parts = partsOf(set, rule);
      const pairs = partsOf(variant.set, other).flatMap((part, at) => differingPairs(parts[at], part));
      yield { seat: { set: id }, goal: outcomesDiffer(limits, pairs, before, after) };
    }
    const kind = rule.rule.of;
    const [a, b] = [perOption(rule), perOption(other)];
    if (kind === undefined || sameNodes(a, b)) continue;
    const excluded = (nodes: readonly Node[], truths: RuleTruths, truthOf: TruthOf): Truth[] =>
      nodes.map((node) => and(and(truths.scope, truths.when), truthOf(node)));
    const goal: Goal = {
      nodes: [...limits, ...a, ...b],
      decide: (truthOf) =>
        differ(excluded(a, before(truthOf), truthOf), excluded(b, after(truthOf), truthOf)),
      atEnd: (truthOf) =>
        excluded(a, before(truthOf), truthOf).join() !== excluded(b, after(truthOf), truthOf).join(),
    };
    for (const { id: option } of set.stock[kind] ?? []) yield { seat: { set: id, kind, option }, goal };
    yield { seat: { set: id, kind }, goal };
  }
}

function outcomesDiffer(
  nodes: readonly Node[],
  pairs: readonly Pair[],
  before: (truthOf: TruthOf) => RuleTruths,
  after: (truthOf: TruthOf) => RuleTruths,
): Goal {
  return {
    nodes,
    decide: (truthOf) => {
      // Where all that differs is settled alike, the rest is the same.
      if (pairs.every((pair) => settledAlike(pair, truthOf))) return FALSE;
      const [a, b] = [before(truthOf), after(truthOf)];
      if (settled(a) && settled(b)) return a.outcome === b.outcome ? FALSE : TRUE;
      return UNKNOWN;
    },
    atEnd: (truthOf) => before(truthOf).outcome !== after(truthOf).outcome,
  };
}

const partsOf = ({ population, gate }: PlanSet, { scope, when, expect }: PlanRule) => [
  population,
  gate,
  scope,
  when,
  expect,
];

/** A condition without and with a mistake, down to the innermost parts that are not the same. */
interface Pair {
  readonly before: Node | undefined;
  readonly after: Node | undefined;
  /** Where the difference lies further in. */
  readonly inner?: readonly Pair[];
}

function differingPairs(before: Node | undefined, after: Node | undefined): Pair[] {
  if (before?.at === after?.at) return [];
  if (!before || !after || !('of' in before && 'of' in after)) return [{ before, after }];
  if (before.kind === 'named') return differingPairs(before.of[0], after);
  if (after.kind === 'named') return differingPairs(before, after.of[0]);
  if (before.kind !== after.kind || before.of.length !== after.of.length) return [{ before, after }];
  return [{ before, after, inner: before.of.flatMap((part, at) => differingPairs(part, after.of[at])) }];
}

/** Settled alike, whatever is still open elsewhere. */
function settledAlike({ before, after, inner }: Pair, truthOf: TruthOf): boolean {
  const truth = truthOf(before);
  if (truth !== UNKNOWN && truth === truthOf(after)) return true;
  return inner?.every((pair) => settledAlike(pair, truthOf)) ?? false;
}

/** True as soon as one is settled otherwise; false where all are settled alike. */
function differ(a: readonly Truth[], b: readonly Truth[]): Truth {
  const known = (truth: Truth | undefined): boolean => truth === TRUE || truth === FALSE;
  if (a.some((truth, at) => known(truth) && known(b[at]) && truth !== b[at])) return TRUE;
  return a.every((truth, at) => known(truth) && known(b[at])) ? FALSE : UNKNOWN;
}

const perOption = ({ excludes, prefers, remarks }: PlanRule): Node[] =>
  [excludes, prefers && 'options' in prefers ? prefers.options : undefined, remarks].flatMap((node) =>
    node === undefined ? [] : [node],
  );

const sameNodes = (a: readonly Node[], b: readonly Node[]): boolean =>
  a.length === b.length && a.every((node, at) => node.at === b[at]!.at);
