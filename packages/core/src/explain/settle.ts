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
  const trial = new Trial(parts, read.truths);
  const some: number[] = [];
  let all: number | undefined;
  for (const subset of subsetsBySize(open.length)) {
    const isMinimal = !some.some((known) => (known & subset) === known);
    if (!isMinimal && all !== undefined) continue;
    const settled = tryOut(
      trial,
      open.filter((_, index) => subset & (1 << index)),
    );
    if (isMinimal && settled.some) some.push(subset);
    if (all === undefined && settled.every) all = subset;
  }
  const factsOf = (subset: number): string[] =>
    open.flatMap(({ fact }, index) => (subset & (1 << index) ? [fact] : []));
  return { some: some.map(factsOf), ...(all === undefined ? {} : { all: factsOf(all) }) };
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

/** Non-empty subsets of so many facts as bit masks, small ones first. */
function subsetsBySize(count: number): readonly number[] {
  const known = SUBSETS[count];
  if (known) return known;
  const size = (mask: number): number => (mask === 0 ? 0 : (mask & 1) + size(mask >> 1));
  const masks = Array.from({ length: 2 ** count - 1 }, (_, index) => index + 1);
  SUBSETS[count] = masks.sort((a, b) => size(a) - size(b) || a - b);
  return SUBSETS[count];
}

const SUBSETS: (readonly number[] | undefined)[] = [];

/** Whether some, and whether every, combination of answers settles all parts. */
function tryOut(trial: Trial, subset: readonly OpenFact[]): { some: boolean; every: boolean } {
  const total = subset.reduce((product, { patterns }) => product * patterns.length, 1);
  if (total === 0 || total > MOST_ANSWERS) return { some: total > 0, every: false };
  let [some, every] = [false, true];
  for (let number = 0; number < total; number += 1) {
    let rest = number;
    for (const { leaves, patterns } of subset) {
      const pattern = patterns[rest % patterns.length]!;
      rest = Math.floor(rest / patterns.length);
      for (let index = 0; index < leaves.length; index += 1) trial.answer(leaves[index]!.at, pattern[index]!);
    }
    const settled = trial.conjunction() !== UNKNOWN;
    some ||= settled;
    every &&= settled;
    if (some && !every) break;
  }
  for (const { leaves } of subset) for (const { at } of leaves) trial.answer(at, UNKNOWN);
  return { some, every };
}

/** The open part of a conjunction, worked out again and again with other answers in its leaves. */
class Trial {
  private readonly truths: Uint8Array;
  private readonly parts: readonly Part[];
  /** The open gates, each after those it rests on. */
  private readonly gates: readonly Exclude<Node, { readonly kind: 'fact' | 'parameter' }>[];

  constructor(parts: readonly Part[], truths: Uint8Array) {
    this.parts = parts;
    this.truths = truths.slice();
    const gates = new Map<number, Trial['gates'][number]>();
    const visit = (node: Node): void => {
      if (truths[node.at] !== UNKNOWN || node.kind === 'fact' || node.kind === 'parameter') return;
      node.of.forEach(visit);
      if (node.kind !== 'named') gates.set(node.at, node);
    };
    for (const { node } of parts) visit(node);
    this.gates = [...gates.values()];
  }

  answer(leaf: number, truth: Truth): void {
    this.truths[leaf] = truth;
  }

  conjunction(): Truth {
    const { truths } = this;
    for (const { kind, at, of } of this.gates) {
      let result: Truth = kind === 'all' ? TRUE : FALSE;
      for (const { at: inner } of of) {
        const truth = truths[inner] as Truth;
        result = kind === 'not' ? not(truth) : kind === 'all' ? and(result, truth) : or(result, truth);
      }
      truths[at] = result;
    }
    let whole: Truth = TRUE;
    for (const { node, negated } of this.parts) {
      const own = truths[node.at] as Truth;
      whole = and(whole, negated ? not(own) : own);
    }
    return whole;
  }
}
