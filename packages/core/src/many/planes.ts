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

const ROWS_OF_BITS = 32;

/** Room for planes in pieces of memory that hold many: an array of its own for each costs more than filling it. */
export class Room {
  private readonly words: number;
  private piece = new ArrayBuffer(0);
  private used = 0;

  constructor(rows: number) {
    this.words = wordsFor(rows);
  }

  /** Rows of bits one behind the other, all clear; one, if not said otherwise. */
  bits(rows = 1): Uint32Array {
    const words = rows * this.words;
    if (this.used + words * 4 > this.piece.byteLength) {
      this.piece = new ArrayBuffer(Math.max(ROWS_OF_BITS, rows) * this.words * 4);
      this.used = 0;
    }
    const bits = new Uint32Array(this.piece, this.used, words);
    this.used += words * 4;
    return bits;
  }

  /** Both rows, all clear: false for every case. */
  planes(): Planes {
    return { certain: this.bits(), possible: this.bits() };
  }
}

export function copied({ certain, possible }: Planes, into: Planes): Planes {
  into.certain.set(certain);
  into.possible.set(possible);
  return into;
}

/** The bits that stand for cases in the last word; those beyond the last case stay clear. */
const lastBits = (rows: number): number => (rows % 32 === 0 ? 0xffffffff : (1 << (rows % 32)) - 1);

/** Bits beyond the last case stay clear, so that counting them is counting cases. */
export function allRows(rows: number): Uint32Array {
  const bits = new Uint32Array(wordsFor(rows)).fill(0xffffffff);
  if (bits.length > 0) bits[bits.length - 1] = lastBits(rows);
  return bits;
}

export const always = (rows: number): Planes => ({ certain: allRows(rows), possible: allRows(rows) });

/** `not` of a condition, put into `into`, which may be the condition's own planes. */
export function negated({ certain, possible }: Planes, rows: number, into = noPlanes(rows)): Planes {
  const words = certain.length;
  for (let word = 0; word < words; word += 1) {
    const isCertain = certain[word]!;
    into.certain[word] = ~possible[word]!;
    into.possible[word] = ~isCertain;
  }
  if (words > 0) {
    into.certain[words - 1]! &= lastBits(rows);
    into.possible[words - 1]! &= lastBits(rows);
  }
  return into;
}

/** `all` of two conditions, or `any` of them, put into `into`, which may be the planes of one of them. */
export function both(kind: 'all' | 'any', left: Planes, right: Planes, into: Planes): Planes {
  // Any of them: not all of what is turned round.
  const turn = kind === 'any' ? -1 : 0;
  for (let word = 0; word < into.certain.length; word += 1) {
    into.certain[word] = ((left.certain[word]! ^ turn) & (right.certain[word]! ^ turn)) ^ turn;
    into.possible[word] = ((left.possible[word]! ^ turn) & (right.possible[word]! ^ turn)) ^ turn;
  }
  return into;
}

/** `all` of some conditions, or `any` of them; one alone is given back as it is. */
export function joined(kind: 'all' | 'any', of: readonly Planes[], room: Room): Planes {
  const [first, ...others] = of;
  if (others.length === 0) return first!;
  const into = room.planes();
  return others.reduce((left, right) => both(kind, left, right, into), first!);
}

/** Planes that are written over again and again: what a gate makes of its parts is wanted by nobody else. */
export class Scratch {
  private readonly room: Room;
  private readonly planes: Planes[] = [];

  constructor(room: Room) {
    this.room = room;
  }

  at(depth: number): Planes {
    this.planes[depth] ??= this.room.planes();
    return this.planes[depth];
  }
}

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
