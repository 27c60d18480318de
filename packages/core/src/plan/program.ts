import { FactLeaves } from './factLeaves.ts';
import type { Leaf, Program } from './plan.ts';

/** A program over leaves and gates in order; leaves over one fact are kept together, for they are read together. */
export function programOf(leaves: readonly Leaf[], gates: readonly number[]): Program {
  const byPlace = new Map<number, Leaf[]>();
  for (const leaf of leaves) {
    const own = byPlace.get(leaf.place);
    if (own) own.push(leaf);
    else byPlace.set(leaf.place, [leaf]);
  }
  return {
    leaves,
    facts: [...byPlace].map(([place, own]) => new FactLeaves(place, own)),
    gates: new Int32Array(gates),
  };
}
