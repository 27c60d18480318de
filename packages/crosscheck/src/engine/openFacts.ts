/** A node of json-rules-engine's result tree; the two trees of a pair have the same shape. */
export interface ResultNode {
  readonly all?: readonly ResultNode[];
  readonly any?: readonly ResultNode[];
  readonly fact?: string;
  readonly result?: boolean;
}

/**
 * Facts of the leaves that keep a part unknown: down from the root, only through nodes that are unknown
 * themselves. An unknown leaf under a group that is settled by another keeps nothing open.
 */
export function openFacts(certainly: ResultNode, possibly: ResultNode): readonly string[] {
  return [...new Set(below(certainly, possibly))];
}

function below(certainly: ResultNode, possibly: ResultNode): readonly string[] {
  const certain = certainly.all ?? certainly.any;
  const possible = possibly.all ?? possibly.any;
  if (!certain || !possible) return isUnknown(certainly, possibly) ? [certainly.fact ?? ''] : [];
  return certain.flatMap((node, index) => {
    const twin = possible[index];
    return twin && isUnknown(node, twin) ? below(node, twin) : [];
  });
}

const isUnknown = (certainly: ResultNode, possibly: ResultNode): boolean =>
  certainly.result === false && possibly.result === true;
