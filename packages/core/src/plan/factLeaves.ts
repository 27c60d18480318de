import type { Entry } from '../facts/plain.ts';
import type { Reading } from '../facts/reading.ts';
import { UNKNOWN } from '../facts/truth.ts';
import { exactTruth, leafTruth } from './leaf.ts';
import type { Leaf } from './plan.ts';

/**
 * The leaves over one fact, tried together. What they make of a value that many cases state is worked out once: of a
 * plain reading, and of a number for each stretch of numbers that they do not tell apart.
 */
export class FactLeaves {
  readonly place: number;
  readonly leaves: readonly Leaf[];
  private readonly places: Int32Array;
  private readonly ofPlain: (Uint8Array | undefined)[] = [];
  private readonly ofStretch: (Uint8Array | undefined)[] = [];
  private cuts: Float64Array | undefined;

  constructor(place: number, leaves: readonly Leaf[]) {
    this.place = place;
    this.leaves = leaves;
    this.places = Int32Array.from(leaves, ({ at }) => at);
  }

  /** Puts down the truths of the leaves for what is read of their fact. */
  fill(entry: Entry | undefined, truths: Uint8Array): void {
    if (typeof entry === 'number') this.put(this.truthsOfNumber(entry), truths);
    else if (entry === undefined) for (const at of this.places) truths[at] = UNKNOWN;
    else if ('plain' in entry) this.put(this.truthsOfPlain(entry, entry.plain), truths);
    else for (const { at, test } of this.leaves) truths[at] = leafTruth(test, entry);
  }

  private put(known: Uint8Array, truths: Uint8Array): void {
    const { places } = this;
    for (let index = 0; index < places.length; index += 1) truths[places[index]!] = known[index]!;
  }

  private truthsOfPlain(reading: Reading, plain: number): Uint8Array {
    const known = this.ofPlain[plain];
    if (known !== undefined) return known;
    const made = Uint8Array.from(this.leaves, ({ test }) => leafTruth(test, reading));
    this.ofPlain[plain] = made;
    return made;
  }

  /** Stretches are numbered from below: before the first cut, the cut itself, between it and the next, and so on. */
  private truthsOfNumber(value: number): Uint8Array {
    this.cuts ??= cutsOf(this.leaves);
    const { cuts } = this;
    let [low, high] = [0, cuts.length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (cuts[middle]! < value) low = middle + 1;
      else high = middle;
    }
    const stretch = 2 * low + (cuts[low] === value ? 1 : 0);
    const known = this.ofStretch[stretch];
    if (known !== undefined) return known;
    const made = Uint8Array.from(this.leaves, ({ test }) => exactTruth(test, value));
    this.ofStretch[stretch] = made;
    return made;
  }
}

const cutsOf = (leaves: readonly Leaf[]): Float64Array =>
  Float64Array.from(new Set(leaves.flatMap(({ test }) => (test.kind === 'compare' ? [test.to] : [])))).sort();
