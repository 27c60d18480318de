/**
 * What the second engine knows of one condition: whether it holds for every possible value, and whether it
 * holds for some. Kept as two plain answers, unlike the evaluator's two-bit number, so that a mistake in the
 * one is not repeated in the other.
 */
export interface Pair {
  readonly certain: boolean;
  readonly possible: boolean;
}

export const HOLDS: Pair = Object.freeze({ certain: true, possible: true });
export const FAILS: Pair = Object.freeze({ certain: false, possible: false });

export const fails = (pair: Pair): boolean => !pair.possible;
export const isOpen = (pair: Pair): boolean => pair.possible && !pair.certain;

export const opposite = (pair: Pair): Pair => ({ certain: !pair.possible, possible: !pair.certain });

export const bothOf = (...pairs: readonly Pair[]): Pair => ({
  certain: pairs.every((pair) => pair.certain),
  possible: pairs.every((pair) => pair.possible),
});

export const wordOf = (pair: Pair): 'true' | 'false' | 'unknown' =>
  pair.certain ? 'true' : pair.possible ? 'unknown' : 'false';
