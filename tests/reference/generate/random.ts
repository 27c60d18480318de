/** A small seeded source of choices: the same seed gives the same rule sets and cases on every machine. */
export interface Random {
  /** 0 inclusive to 1 exclusive. */
  next(): number;
  chance(probability: number): boolean;
  /** Both ends included. */
  integer(low: number, high: number): number;
  pick<T>(items: readonly T[]): T;
  /** Each item kept with the given probability, in order. */
  some<T>(items: readonly T[], probability?: number): T[];
  weighted<T>(items: readonly (readonly [weight: number, item: T])[]): T;
}

export function random(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const integer = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const pick = <T>(items: readonly T[]): T => items[integer(0, items.length - 1)] as T;
  return {
    next,
    chance: (probability) => next() < probability,
    integer,
    pick,
    some: (items, probability = 0.5) => items.filter(() => next() < probability),
    weighted: (items) => {
      let left = next() * items.reduce((sum, [weight]) => sum + weight, 0);
      for (const [weight, item] of items) {
        left -= weight;
        if (left < 0) return item;
      }
      return (items.at(-1) as (typeof items)[number])[1];
    },
  };
}
