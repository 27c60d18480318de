import { and, FALSE, not, or, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Leaf, Node } from '../plan/plan.ts';
import { type Pattern, patternsOf } from './answers.ts';
import type { Read } from './reasons.ts';

/** A condition that must come out, or must not. */
export interface Part {
  readonly node: Node;
  readonly negated?: boolean;
}

/** Sets of facts that can settle, or that do settle, whether all parts hold. */
export interface Settlers {
  /** Minimal sets for which some answers settle it, smallest first. */
  readonly some: readonly (readonly string[])[];
  /** The smallest set that settles it whatever is found; absent where none of the askable ones does. */
  readonly all?: readonly string[];
}

/** Beyond this many facts or answers a set is not tried out; all its facts together are named instead. */
const MOST_FACTS = 8;
const MOST_ANSWERS = 4096;

interface OpenFact {
  readonly fact: string;
  readonly leaves: readonly Leaf[];
  readonly patterns: readonly Pattern[];
}

/**
 * Tries out what answers to which facts would settle a conjunction. Exact as long as the facts behind the leaves do
 * not share an input; `askable` says which of them anybody can still answer.
 */
export function settlers(
  parts: readonly Part[],
  read: Read,
  leafAt: ReadonlyMap<number, Leaf>,
  askable: (fact: string) => boolean,
): Settlers {
  const open = openFacts(parts, read, leafAt).filter(({ fact }) => askable(fact));
  if (open.length > MOST_FACTS) return { some: [open.map(({ fact }) => fact)] };
  const some: string[][] = [];
  let all: readonly string[] | undefined;
  for (const subset of subsetsBySize(open)) {
    const facts = subset.map(({ fact }) => fact);
    const isMinimal = !some.some((known) => known.every((fact) => facts.includes(fact)));
    if (!isMinimal && all !== undefined) continue;
    const settled = tryOut(parts, read, subset);
    if (isMinimal && settled.some) some.push(facts);
    if (all === undefined && settled.every) all = facts;
  }
  return { some, ...(all ? { all } : {}) };
}

function openFacts(parts: readonly Part[], read: Read, leafAt: ReadonlyMap<number, Leaf>): OpenFact[] {
  const byFact = new Map<string, Map<number, Leaf>>();
  const visit = (node: Node): void => {
    if (read.truths[node.at] !== UNKNOWN) return;
    if (node.kind === 'fact') {
      const leaf = leafAt.get(node.at)!;
      const leaves = byFact.get(leaf.fact) ?? new Map<number, Leaf>();
      byFact.set(leaf.fact, leaves.set(leaf.at, leaf));
    } else if (node.kind !== 'parameter') node.of.forEach(visit);
  };
  for (const { node } of parts) visit(node);
  return [...byFact].map(([fact, leaves]) => {
    const list = [...leaves.values()];
    return { fact, leaves: list, patterns: patternsOf(read.readings.get(fact)!, list) };
  });
}

function* subsetsBySize(open: readonly OpenFact[]): Generator<OpenFact[]> {
  const masks = Array.from({ length: 2 ** open.length - 1 }, (_, index) => index + 1);
  const size = (mask: number): number => open.filter((_, index) => mask & (1 << index)).length;
  for (const mask of masks.sort((a, b) => size(a) - size(b) || a - b)) {
    yield open.filter((_, index) => mask & (1 << index));
  }
}

/** Whether some, and whether every, combination of answers settles all parts. */
function tryOut(
  parts: readonly Part[],
  read: Read,
  subset: readonly OpenFact[],
): { some: boolean; every: boolean } {
  const total = subset.reduce((product, { patterns }) => product * patterns.length, 1);
  if (total === 0 || total > MOST_ANSWERS) return { some: total > 0, every: false };
  let [some, every] = [false, true];
  for (let number = 0; number < total; number += 1) {
    const answered = new Map<number, Truth>();
    let rest = number;
    for (const { leaves, patterns } of subset) {
      const pattern = patterns[rest % patterns.length]!;
      rest = Math.floor(rest / patterns.length);
      leaves.forEach((leaf, index) => {
        answered.set(leaf.at, pattern[index]!);
      });
    }
    const settled = conjunction(parts, read, answered) !== UNKNOWN;
    some ||= settled;
    every &&= settled;
    if (some && !every) break;
  }
  return { some, every };
}

function conjunction(parts: readonly Part[], read: Read, answered: ReadonlyMap<number, Truth>): Truth {
  const truthOf = (node: Node): Truth => {
    const given = answered.get(node.at);
    if (given !== undefined) return given;
    const stored = read.truths[node.at] as Truth;
    if (stored !== UNKNOWN) return stored;
    switch (node.kind) {
      case 'fact':
      case 'parameter':
        return stored;
      case 'named':
        return truthOf(node.of[0]);
      case 'not':
        return not(truthOf(node.of[0]));
      case 'all':
        return node.of.reduce<Truth>((sofar, inner) => and(sofar, truthOf(inner)), TRUE);
      case 'any':
        return node.of.reduce<Truth>((sofar, inner) => or(sofar, truthOf(inner)), FALSE);
    }
  };
  return parts.reduce<Truth>((sofar, { node, negated }) => {
    const own = truthOf(node);
    return and(sofar, negated ? not(own) : own);
  }, TRUE);
}
