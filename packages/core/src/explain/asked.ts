import { UNKNOWN } from '../facts/truth.ts';
import type { Leaf, Node, Plan, PlanSet } from '../plan/plan.ts';
import type { Beside } from './beside.ts';
import type { Part } from './settle.ts';
import { leavesOf } from './shown.ts';

/** So many states of one rule are remembered. */
const MOST_KEPT = 64;

interface AskedFact {
  readonly fact: string;
  readonly leaves: Leaf[];
}

/**
 * The parts of a rule that may be open, and what was worked out for each state in which cases left them: one case
 * differs from another, or from itself a moment ago, in what a few rules look at.
 */
export class Asked<T> {
  readonly set: PlanSet;
  readonly parts: readonly Part[];
  private readonly facts: readonly AskedFact[];
  private readonly known = new Map<string, T>();
  private readonly codes: number[] = [];

  constructor(plan: Plan, set: PlanSet, parts: readonly Part[]) {
    this.set = set;
    this.parts = parts;
    this.facts = factsOf(plan, parts);
  }

  /** What `work` gives, worked out once for all cases that are alike in everything it looks at. */
  once(beside: Beside, work: () => T): T {
    const { known } = this;
    const state = this.state(beside);
    const found = known.get(state);
    if (found !== undefined) return found;
    const made = work();
    if (known.size >= MOST_KEPT) known.clear();
    known.set(state, made);
    return made;
  }

  /** The truth of each leaf, and all that bears on how an open one may come out. */
  private state(beside: Beside): string {
    const { codes } = this;
    let next = 0;
    for (const { fact, leaves } of this.facts) {
      let isOpen = false;
      for (const { at } of leaves) {
        const truth = beside.truths[at]!;
        codes[next++] = truth;
        isOpen ||= truth === UNKNOWN;
      }
      const state = isOpen ? beside.state(fact) : 0;
      codes[next++] = state & 0xffff;
      codes[next++] = state >>> 16;
    }
    return String.fromCharCode(...codes);
  }
}

function factsOf(plan: Plan, parts: readonly Part[]): AskedFact[] {
  const facts = new Map<string, Set<Leaf>>();
  const visit = (node: Node): void => {
    if (node.kind === 'fact') {
      const leaf = leavesOf(plan)[node.at]!;
      facts.set(leaf.fact, (facts.get(leaf.fact) ?? new Set()).add(leaf));
    } else if (node.kind !== 'parameter') node.of.forEach(visit);
  };
  for (const { node } of parts) visit(node);
  return [...facts].map(([fact, leaves]) => ({ fact, leaves: [...leaves] }));
}
