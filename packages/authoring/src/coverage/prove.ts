import { type Leaf, type Node, type Plan, type Truth, UNKNOWN } from '@dwellset/core';
import { type Atom, atomsOf } from './atoms.ts';
import type { Proof } from './shape.ts';

/** Beyond this a proof is not attempted, and what it would prove stays uncovered. */
const MOST_COMBINATIONS = 400_000;

/** Comparisons whose truths a caller holds fixed, by place. */
export type Fixed = ReadonlyMap<number, Truth>;

interface Varied {
  readonly fact: string;
  readonly leaves: readonly Leaf[];
  readonly atoms: readonly Atom[];
}

/** A table of truths in which nothing is known but the local choices. */
export function nothingKnown(plan: Plan): Uint8Array {
  const truths = new Uint8Array(plan.size).fill(UNKNOWN);
  for (const [at, truth] of plan.constants) truths[at] = truth;
  return truths;
}

/**
 * Tries every combination of values of the facts behind these conditions, each fact exactly known (or, where that is
 * asked for, known to have nothing recorded), until `holds` says yes. The proof that it never does; nothing where it
 * does, or where there are too many combinations. Facts are varied as if each could have any value beside any other:
 * what is proven impossible so is impossible, while a bond between two facts may leave something unproven.
 */
export function neverHolds(
  plan: Plan,
  nodes: readonly Node[],
  holds: (truths: Uint8Array) => boolean,
  fixed: Fixed = new Map(),
): Proof | undefined {
  const varied = factsOf(plan, nodes, fixed);
  const combinations = varied?.reduce((product, { atoms }) => product * atoms.length, 1) ?? Infinity;
  if (varied === undefined || combinations > MOST_COMBINATIONS) return undefined;
  const truths = nothingKnown(plan);
  for (const [at, truth] of fixed) truths[at] = truth;
  const put = ({ leaves, atoms }: Varied, which: number): void => {
    leaves.forEach(({ at }, index) => {
      truths[at] = atoms[which]![index]!;
    });
  };
  const at = varied.map((fact) => {
    put(fact, 0);
    return 0;
  });
  for (let tried = 0; tried < combinations; tried += 1) {
    if (holds(truths)) return undefined;
    // Like the wheels of a counter: the next fact moves on when this one is through.
    for (let wheel = 0; wheel < varied.length; wheel += 1) {
      const fact = varied[wheel]!;
      at[wheel] = (at[wheel]! + 1) % fact.atoms.length;
      put(fact, at[wheel]!);
      if (at[wheel] !== 0) break;
    }
  }
  return { combinations, facts: varied.map(({ fact }) => fact) };
}

function factsOf(plan: Plan, nodes: readonly Node[], fixed: Fixed): Varied[] | undefined {
  const places = new Set<number>();
  const visit = (node: Node): void => {
    if ('of' in node) node.of.forEach(visit);
    else if (node.kind === 'fact' && !fixed.has(node.at)) places.add(node.at);
  };
  nodes.forEach(visit);
  const byFact = new Map<string, Leaf[]>();
  for (const leaf of [...plan.patient.leaves, ...plan.option.leaves]) {
    if (places.has(leaf.at)) byFact.set(leaf.fact, [...(byFact.get(leaf.fact) ?? []), leaf]);
  }
  const varied: Varied[] = [];
  for (const [id, leaves] of byFact) {
    const fact = plan.facts.get(id);
    const codes = fact?.codes === undefined ? [] : (plan.patientFacts.codes.get(fact.codes) ?? []);
    const atoms = fact && atomsOf(fact, leaves, codes);
    if (atoms === undefined) return undefined;
    varied.push({ fact: id, leaves, atoms });
  }
  return varied;
}
