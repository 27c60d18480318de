import type { Node, Plan, PlanRule, PlanSet } from '@dwellset/core';

/** What a named condition stands for, and the stock lists for whose options it is read. */
export interface Named {
  readonly node: Node;
  readonly kinds: string[];
}

/** Every named condition in use. */
export function namedIn({ option }: Plan, set: PlanSet, rules: readonly PlanRule[]): Map<string, Named> {
  const found = new Map<string, Named>();
  const perOption = new Set(option.leaves.map(({ at }) => at));
  const readsOption = (node: Node): boolean =>
    perOption.has(node.at) || ('of' in node && node.of.some(readsOption));
  const visit = (node: Node | undefined, kind: string | undefined): void => {
    if (node === undefined || !('of' in node)) return;
    if (node.kind === 'named') {
      const [inner] = node.of;
      const known = found.get(node.name) ?? { node: inner, kinds: [] };
      found.set(node.name, known);
      if (kind !== undefined && readsOption(inner) && !known.kinds.includes(kind)) known.kinds.push(kind);
    }
    for (const inner of node.of) visit(inner, kind);
  };
  visit(set.population, undefined);
  visit(set.gate, undefined);
  for (const { rule, scope, when, expect, excludes, remarks, prefers } of rules) {
    const preferred = prefers && 'options' in prefers ? prefers.options : undefined;
    for (const node of [scope, when, expect, excludes, remarks, preferred]) visit(node, rule.of);
  }
  // In the order of the release, whichever rule mentions them first.
  const order = Object.keys(set.release.conditions);
  return new Map([...found].sort(([a], [b]) => order.indexOf(a) - order.indexOf(b)));
}
