import { and, type Node, not, or, type PlanRule, ruleTruths, type TruthOf } from '@dwellset/core';
import { patientsOf } from '../../boxes/patients.ts';
import type { Facts } from '../../boxes/scene.ts';
import { search } from '../../boxes/search.ts';
import { type Value, type Variable, variablesOf } from '../../boxes/variables.ts';
import { saidBy } from '../../boxes/visible.ts';
import { placeAt } from '../../coverage/places.ts';
import { type Draft, nodesOf } from '../draft.ts';
import { inOrder } from '../partly.ts';
import type { Subject } from '../subject.ts';
import { shownBy } from '../witness.ts';

/** Few, since this is asked for every limit; what is not found in so many is not reported. */
const MOST_BOXES = 300;

/**
 * Values of a number or time for which a decision falls back to its default, while just below and just above it comes
 * to a conclusion, everything else being equal: two limits that do not meet.
 */
export function* islands(subject: Subject): Generator<Draft> {
  const { release, documents } = subject;
  if (release.conclusions === undefined || release.defaultConclusion === undefined) return;
  const concluding = subject.rules.filter(({ rule }) => rule.concludes !== undefined);
  const { variables } = variablesOf(subject.scene(), nodesOf(subject, concluding));
  for (const variable of variables) {
    const values = inOrder(subject.scene().fact(variable.fact), variable);
    for (let at = 1; at + 1 < values.length; at += 1) {
      const around = [values[at - 1]!, values[at]!, values[at + 1]!] as const;
      const facts = somebodyAt(subject, concluding, variables, variable, around);
      if (facts === undefined) continue;
      const shown = around.map(({ value }) =>
        shownBy(subject, subject.scene().caseOf({ ...facts, [variable.fact]: value! }), ['conclusion']),
      );
      yield {
        kind: 'gap-between',
        of: ['conclusion', variable.fact],
        certainty: 'certain',
        place: placeAt({ document: documents.ruleSet.document, pointer: '/conclusions' }),
        witness: shown[1]!,
        beside: [shown[0]!, shown[2]!],
      };
      break;
    }
  }
}

/** What else is true of a patient who shows it, by the core. */
function somebodyAt(
  subject: Subject,
  rules: readonly PlanRule[],
  variables: readonly Variable[],
  own: Variable,
  around: readonly [Value, Value, Value],
): Facts | undefined {
  const { plan, set, release } = subject;
  const scene = subject.scene();
  const { size } = plan;
  // Three tables of truths beside each other, in which only what hangs on this fact differs.
  const truths = new Uint8Array(3 * size);
  for (const copy of [0, 1, 2]) truths.set(scene.nothing.truths, copy * size);
  own.places.forEach((place, index) => {
    around.forEach((value, copy) => {
      truths[place + copy * size] = value.truths[index]!;
    });
  });
  const copies = around.map((_, copy) => copyOf(subject, rules, new Set(own.places), copy * size));
  const reads = copies[0]!.rules.map(({ nodes }) => nodes.some((node) => holdsPlace(node, own.places)));
  const concludes = (copy: number, all: boolean) => (truthOf: TruthOf) =>
    copies[copy]!.rules.filter((_, index) => all || reads[index])
      .map((rule) => rule.applies(truthOf))
      .reduce(or, 0);
  if (!reads.includes(true)) return undefined;
  const settled = (facts: Facts, value: Value): string =>
    saidBy(plan, release.id, scene.caseOf({ ...facts, [own.fact]: value.value! })).get('conclusion') ?? '';
  const [below, here, above] = around;
  const fallsBack = (said: string): boolean => said === release.defaultConclusion?.id;
  const shows = (facts: Facts): boolean =>
    fallsBack(settled(facts, here)) &&
    [below, above].every((value) => release.conclusions?.some(({ id }) => id === settled(facts, value)));
  let found: Facts | undefined;
  search(
    variables.filter((variable) => variable !== own),
    truths,
    {
      nodes: [
        ...copies.flatMap(({ rules: copied }) => copied.filter((_, index) => reads[index])),
        ...copies[1]!.rules,
      ].flatMap(({ nodes }) => nodes),
      decide: (truthOf) => {
        const inLimits = and(truthOf(set.population), truthOf(set.gate));
        const around = and(concludes(0, false)(truthOf), concludes(2, false)(truthOf));
        return and(and(inLimits, around), not(concludes(1, true)(truthOf)));
      },
    },
    (box) => {
      for (const { facts } of patientsOf(scene, box, shows)) found ??= facts;
      return found !== undefined;
    },
    MOST_BOXES,
  );
  return found;
}

interface Copied {
  readonly nodes: readonly Node[];
  readonly applies: (truthOf: TruthOf) => ReturnType<TruthOf>;
}

/** Rules over one of the tables. */
function copyOf(
  subject: Subject,
  rules: readonly PlanRule[],
  places: ReadonlySet<number>,
  by: number,
): { readonly rules: readonly Copied[] } {
  const moved = <N extends Node | undefined>(node: N): N => (node && moveLeaves(node, places, by)) as N;
  const set = { ...subject.set, population: moved(subject.set.population), gate: moved(subject.set.gate) };
  return {
    rules: rules.map((rule): Copied => {
      const { scope, when, expect } = rule;
      const own: PlanRule = { ...rule, scope: moved(scope), when: moved(when), expect: moved(expect) };
      return {
        nodes: [set.population, set.gate, own.scope, own.when, own.expect].flatMap((node) => node ?? []),
        applies: (truthOf) => {
          const truths = ruleTruths(set, own, truthOf);
          return and(truths.scope, truths.when);
        },
      };
    }),
  };
}

/** The same condition beside the first: what it works out stands in its own part of the table, as does the one fact. */
function moveLeaves(node: Node, places: ReadonlySet<number>, by: number): Node {
  if (!('of' in node))
    return node.kind === 'fact' && places.has(node.at) ? { ...node, at: node.at + by } : node;
  const of = node.of.map((inner) => moveLeaves(inner, places, by));
  // A named condition shares the place of what it stands for.
  return { ...node, at: node.kind === 'named' ? of[0]!.at : node.at + by, of } as Node;
}

const holdsPlace = (node: Node, places: readonly number[]): boolean =>
  'of' in node ? node.of.some((inner) => holdsPlace(inner, places)) : places.includes(node.at);
