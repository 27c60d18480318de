/**
 * The truth of one condition for many cases, two bits a case in two rows of words: a case's bit in `certain` where it
 * is true, in `possible` where it is not false. So unknown is possible without being certain, `all` is `&`, `any`
 * is `|` and `not` swaps and complements, 32 cases at a time.
 */
export interface Planes {
  readonly certain: Uint32Array;
  readonly possible: Uint32Array;
}

export const wordsFor = (rows: number): number => (rows + 31) >>> 5;

export const noPlanes = (rows: number): Planes => ({
  certain: new Uint32Array(wordsFor(rows)),
  possible: new Uint32Array(wordsFor(rows)),
});

/** Bits beyond the last case stay clear, so that counting them is counting cases. */
export function allRows(rows: number): Uint32Array {
  const bits = new Uint32Array(wordsFor(rows)).fill(0xffffffff);
  if (rows % 32 !== 0) bits[bits.length - 1] = (1 << (rows % 32)) - 1;
  return bits;
}

export const always = (rows: number): Planes => ({ certain: allRows(rows), possible: allRows(rows) });

export function negated({ certain, possible }: Planes, rows: number): Planes {
  const whole = allRows(rows);
  return {
    certain: whole.map((bits, word) => bits & ~possible[word]!),
    possible: whole.map((bits, word) => bits & ~certain[word]!),
  };
}

export const both = (a: Planes, b: Planes): Planes => joined(a, b, intersection);
export const either = (a: Planes, b: Planes): Planes => joined(a, b, union);

const joined = (a: Planes, b: Planes, join: typeof union): Planes => ({
  certain: join(a.certain, b.certain),
  possible: join(a.possible, b.possible),
});

export function intersection(a: Uint32Array, b: Uint32Array): Uint32Array {
  const result = new Uint32Array(a.length);
  for (let word = 0; word < a.length; word += 1) result[word] = a[word]! & b[word]!;
  return result;
}

export function union(a: Uint32Array, b: Uint32Array): Uint32Array {
  const result = new Uint32Array(a.length);
  for (let word = 0; word < a.length; word += 1) result[word] = a[word]! | b[word]!;
  return result;
}

/** In the first and not in the second. */
export function without(a: Uint32Array, b: Uint32Array): Uint32Array {
  const result = new Uint32Array(a.length);
  for (let word = 0; word < a.length; word += 1) result[word] = a[word]! & ~b[word]!;
  return result;
}

export const isIn = (bits: Uint32Array, row: number): boolean =>
  ((bits[row >>> 5]! >>> (row & 31)) & 1) === 1;

export function put(bits: Uint32Array, row: number): void {
  bits[row >>> 5]! |= 1 << (row & 31);
}

/** How many cases have their bit set. */
export function count(bits: Uint32Array): number {
  let total = 0;
  for (let word = 0; word < bits.length; word += 1) {
    let rest = bits[word]!;
    rest -= (rest >>> 1) & 0x55555555;
    rest = (rest & 0x33333333) + ((rest >>> 2) & 0x33333333);
    total += Math.imul((rest + (rest >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return total;
}
