import type { Reading } from '../facts/reading.ts';
import { and, FALSE, not, or, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Leaf, Node } from '../plan/plan.ts';
import { type Pattern, patternsOf } from './answers.ts';

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
  readonly leaves: Leaf[];
  patterns: readonly Pattern[];
}

type Gate = Exclude<Node, { readonly kind: 'fact' | 'parameter' | 'named' }>;

/**
 * Tries out what answers to which facts would settle a conjunction. Exact as long as the facts behind the leaves do
 * not share an input; `askable` says which of them anybody can still answer.
 */
export function settlers(
  truths: Uint8Array,
  leafAt: readonly (Leaf | undefined)[],
  parts: readonly Part[],
  readings: Pick<ReadonlyMap<string, Reading>, 'get'>,
  askable: (fact: string) => boolean,
): Settlers {
  const trial = new Trial(truths, leafAt, parts);
  const open = trial.facts.filter(({ fact }) => askable(fact));
  if (open.length > MOST_FACTS) return { some: [open.map(({ fact }) => fact)] };
  for (const one of open) one.patterns = patternsOf(readings.get(one.fact)!, one.leaves);
  const some: number[] = [];
  let all: number | undefined;
  for (const subset of subsetsBySize(open.length)) {
    const isMinimal = !some.some((known) => (known & subset) === known);
    if (!isMinimal && all !== undefined) continue;
    const settled = trial.tryOut(chosen(open, subset), isMinimal, all === undefined);
    if (isMinimal && settled.some) some.push(subset);
    if (all === undefined && settled.every) all = subset;
  }
  const factsOf = (subset: number): string[] => chosen(open, subset).map(({ fact }) => fact);
  return all === undefined ? { some: some.map(factsOf) } : { some: some.map(factsOf), all: factsOf(all) };
}

/** A table of truths of its own, the leaves of which are filled with answers. */
class Trial {
  readonly facts: OpenFact[] = [];
  private readonly truths: Uint8Array;
  private readonly leafAt: readonly (Leaf | undefined)[];
  private readonly parts: readonly Part[];
  /** The open gates, each after those it rests on. */
  private readonly gates: Gate[] = [];

  constructor(truths: Uint8Array, leafAt: readonly (Leaf | undefined)[], parts: readonly Part[]) {
    this.truths = truths.slice();
    this.leafAt = leafAt;
    this.parts = parts;
    for (const { node } of parts) this.visit(node);
  }

  /** Notes the open facts, with their open leaves, and the open gates below a node. */
  private visit(node: Node): void {
    if (this.truths[node.at] !== UNKNOWN || node.kind === 'parameter') return;
    if (node.kind === 'fact') {
      const leaf = this.leafAt[node.at]!;
      const known = this.facts.find(({ fact }) => fact === leaf.fact);
      if (known === undefined) this.facts.push({ fact: leaf.fact, leaves: [leaf], patterns: [] });
      else if (!known.leaves.includes(leaf)) known.leaves.push(leaf);
      return;
    }
    for (const inner of node.of) this.visit(inner);
    if (node.kind !== 'named' && !this.gates.some(({ at }) => at === node.at)) this.gates.push(node);
  }

  /** Whether some, and whether every, combination of answers settles all parts; goes on until what is asked is known. */
  tryOut(
    subset: readonly OpenFact[],
    asksSome: boolean,
    asksEvery: boolean,
  ): { some: boolean; every: boolean } {
    let total = 1;
    for (const { patterns } of subset) total *= patterns.length;
    if (total === 0 || total > MOST_ANSWERS) return { some: total > 0, every: false };
    let [some, every] = [false, true];
    for (let number = 0; number < total; number += 1) {
      let rest = number;
      for (const { leaves, patterns } of subset) {
        const pattern = patterns[rest % patterns.length]!;
        rest = Math.floor(rest / patterns.length);
        for (let index = 0; index < leaves.length; index += 1)
          this.truths[leaves[index]!.at] = pattern[index]!;
      }
      const settled = this.conjunction() !== UNKNOWN;
      some ||= settled;
      every &&= settled;
      if ((some || !asksSome) && !(every && asksEvery)) break;
    }
    for (const { leaves } of subset) for (const { at } of leaves) this.truths[at] = UNKNOWN;
    return { some, every };
  }

  /** The open part of the conjunction with the answers that are in its leaves. */
  private conjunction(): Truth {
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

const chosen = (open: readonly OpenFact[], subset: number): readonly OpenFact[] =>
  open.filter((_, index) => subset & (1 << index));

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
