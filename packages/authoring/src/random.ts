/** A seeded source of choices: the same seed gives the same choices in any process on any machine. */
export interface Random {
  /** 0 inclusive to 1 exclusive. */
  next(): number;
  chance(probability: number): boolean;
  /** Both ends included. */
  integer(low: number, high: number): number;
  pick<T>(items: readonly T[]): T;
  /** Weights need not add up to 1. */
  weighted<T extends { readonly weight?: number }>(items: readonly T[]): T;
}

/** A counter mixed by multiplication and shifts (32 bits): no clock, no platform source of chance. */
export function random(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 4_294_967_296;
  };
  const integer = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    chance: (probability) => next() < probability,
    integer,
    pick: <T>(items: readonly T[]): T => items[integer(0, items.length - 1)] as T,
    weighted: <T extends { readonly weight?: number }>(items: readonly T[]): T => {
      let left = next() * items.reduce((sum, { weight = 1 }) => sum + weight, 0);
      for (const item of items) {
        left -= item.weight ?? 1;
        if (left < 0) return item;
      }
      return items.at(-1) as T;
    },
  };
}
