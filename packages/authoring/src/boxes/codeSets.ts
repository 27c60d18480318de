import type { Fact, Leaf } from '@dwellset/core';
import type { Scene } from './scene.ts';

/** Beyond this the codes of one fact are not combined in every way. */
const MOST_SETS = 2048;

/**
 * Sets of codes answered yes that between them give every combination of truths: codes that all comparisons treat
 * alike are taken singly or all together; where the count of codes matters, in every number.
 */
export function codeSets(
  scene: Scene,
  fact: Fact,
  leaves: readonly Leaf[],
  codes: readonly string[],
): { readonly values: readonly (readonly string[])[]; readonly complete: boolean } {
  const counted = [...new Set(leaves.map((leaf) => leaf.fact))].flatMap((id) => {
    const { from } = scene.fact(id);
    if (from === undefined || !('countCodes' in from)) return [];
    const { in: list } = from.countCodes;
    const named = 'parameter' in list ? scene.inputs.parameter(list.parameter) : list;
    return [Array.isArray(named) ? (named as readonly string[]) : []];
  });
  const named = leaves.flatMap(({ test, fact: id }) =>
    test.kind === 'contains' && id === fact.id ? [test.codes] : [],
  );
  const classes = new Map<string, string[]>();
  for (const code of codes) {
    const key = [...named, ...counted].map((list) => (list.includes(code) ? '1' : '0')).join('');
    if (key.includes('1')) classes.set(key, [...(classes.get(key) ?? []), code]);
  }
  const choices = [...classes.values()].map((alike) =>
    counted.length === 0
      ? [[], alike.slice(0, 1)]
      : Array.from({ length: alike.length + 1 }, (_, count) => alike.slice(0, count)),
  );
  const total = choices.reduce((product, { length }) => product * length, 1);
  if (total <= MOST_SETS) {
    const all = choices.reduce<readonly (readonly string[])[]>(
      (sofar, of) => sofar.flatMap((begun) => of.map((more) => [...begun, ...more])),
      [[]],
    );
    return { values: [...all].sort((a, b) => a.length - b.length), complete: true };
  }
  const first = [...classes.values()].map(([code]) => code!);
  const pairs = first.flatMap((code, index) => first.slice(index + 1).map((other) => [code, other]));
  return { values: [[], ...first.map((code) => [code]), ...pairs, first, codes], complete: false };
}
