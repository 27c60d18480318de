import type { Goal, Proof } from './shape.ts';

/** A goal as the vignettes leave it; only what they do not show is tried to be proven impossible. */
export function goal<W extends string>(what: W, covered: boolean, prove: () => Proof | undefined): Goal<W> {
  if (covered) return { what, state: 'covered' };
  const proof = prove();
  return proof ? { what, state: 'impossible', proof } : { what, state: 'uncovered' };
}
