import { and, FALSE, type Node, not, or, TRUE, type Truth } from '@dwellset/core';

type Gate = Exclude<Node, { readonly kind: 'fact' | 'parameter' }>;

/** The gates of some conditions over a table of truths, each after those it rests on. */
export class Gates {
  private readonly gates: readonly Gate[];

  constructor(nodes: readonly Node[]) {
    const gates = new Map<number, Gate>();
    const seen = new Set<number>();
    const visit = (node: Node): void => {
      if (seen.has(node.at)) return;
      if ('of' in node) node.of.forEach(visit);
      seen.add(node.at);
      // A named condition shares the place of what it stands for.
      if ('of' in node && node.kind !== 'named') gates.set(node.at, node);
    };
    nodes.forEach(visit);
    this.gates = [...gates.values()];
  }

  /** Those gates that change with the truth of some places. */
  above(places: Iterable<number>): readonly Gate[] {
    const moved = new Set(places);
    return this.gates.filter(({ at, of }) => {
      const moves = of.some((inner) => moved.has(inner.at));
      if (moves) moved.add(at);
      return moves;
    });
  }

  /** Works out all of them. */
  settle(truths: Uint8Array): void {
    settle(this.gates, truths);
  }
}

/** Works out some gates in their order. */
export function settle(gates: readonly Gate[], truths: Uint8Array): void {
  for (const { kind, at, of } of gates) {
    let result: Truth = kind === 'any' ? FALSE : TRUE;
    for (const { at: inner } of of) {
      const truth = truths[inner] as Truth;
      result = kind === 'not' ? not(truth) : kind === 'any' ? or(result, truth) : and(result, truth);
    }
    truths[at] = result;
  }
}
