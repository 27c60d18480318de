import { and, FALSE, type Node, not, or, TRUE, type Truth, type TruthOf } from '@dwellset/core';

/** One leaf, or mention of a named condition, taken to be otherwise than it is. */
export interface Flipped {
  readonly node: Node;
  readonly truth: Truth;
}

/**
 * Reads conditions over a table of truths, of which only the leaves need be filled in. With `flipped` a single
 * occurrence is turned while the same comparison elsewhere stays as it is.
 */
export function reader(truths: Uint8Array, flipped?: Flipped): TruthOf {
  const truthOf = (node: Node): Truth => {
    if (node === flipped?.node) return flipped.truth;
    switch (node.kind) {
      case 'fact':
      case 'parameter':
        return truths[node.at] as Truth;
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
  return (node) => (node === undefined ? TRUE : truthOf(node));
}
