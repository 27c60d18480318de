import type { Random } from '../reference/generate/random.ts';

export function shuffled<T>(draw: Random, items: readonly T[]): T[] {
  const left = [...items];
  return items.map(() => left.splice(draw.integer(0, left.length - 1), 1)[0] as T);
}

/** The same JSON with the keys of every object in another order. */
export function withKeysShuffled<T>(draw: Random, value: T): T {
  if (Array.isArray(value)) return value.map((item) => withKeysShuffled(draw, item)) as T;
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) => [key, withKeysShuffled(draw, inner)] as const);
  return Object.fromEntries(shuffled(draw, entries)) as T;
}

/** Where two texts part, in a few words; nothing where they are the same. */
export function firstDifference(one: string, other: string): string | undefined {
  if (one === other) return undefined;
  let at = 0;
  while (one[at] === other[at]) at++;
  return `…${one.slice(Math.max(0, at - 60), at + 60)}… against …${other.slice(Math.max(0, at - 60), at + 60)}…`;
}
