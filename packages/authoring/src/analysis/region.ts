/**
 * Patients who are alike in some respects: for each fact that is limited, the atoms that are left to it, one bit an
 * atom, 32 atoms a word. Facts that are not named may be anything. A limited fact names all of its words, in order,
 * and at least one of its bits is set.
 */
export interface Box {
  readonly words: readonly number[];
  readonly masks: readonly number[];
}

/** Patients of whom at least one box holds. */
export type Region = readonly Box[];

/** By word: the fact that it belongs to, and the bits that stand for its atoms. */
export interface Layout {
  readonly ownerOf: readonly number[];
  readonly fullOf: readonly number[];
}

export const EVERYBODY: Region = [{ words: [], masks: [] }];
export const NOBODY: Region = [];

/** What is left of both boxes, word by word until `take` is no longer interested; false where some fact has no atom left. */
function walk(
  { ownerOf }: Layout,
  a: Box,
  b: Box,
  take: ((word: number, mask: number) => void) | undefined,
): boolean {
  let [i, j, owner, left] = [0, 0, -1, 1];
  const [endA, endB] = [a.words.length, b.words.length];
  while (i < endA || j < endB) {
    const x = i < endA ? a.words[i]! : Infinity;
    const y = j < endB ? b.words[j]! : Infinity;
    const word = Math.min(x, y);
    const mask = x < y ? a.masks[i]! : x > y ? b.masks[j]! : a.masks[i]! & b.masks[j]!;
    if (x <= y) i += 1;
    if (y <= x) j += 1;
    if (ownerOf[word] !== owner) {
      if (left === 0) return false;
      owner = ownerOf[word]!;
      left = 0;
    }
    left |= mask;
    take?.(word, mask);
  }
  return left !== 0;
}

export const meets = (layout: Layout, a: Box, b: Box): boolean => walk(layout, a, b, undefined);

export function meet(layout: Layout, a: Box, b: Box): Box | undefined {
  const words: number[] = [];
  const masks: number[] = [];
  const some = walk(layout, a, b, (word, mask) => {
    words.push(word);
    masks.push(mask);
  });
  return some ? { words, masks } : undefined;
}

export const overlap = (layout: Layout, a: Region, b: Region): boolean =>
  a.some((one) => b.some((other) => meets(layout, one, other)));

/** Patients of both; nothing where that takes more than `most` boxes. */
export function both(layout: Layout, a: Region, b: Region, most: number): Region | undefined {
  const found: Box[] = [];
  for (const one of a) {
    for (const other of b) {
      const box = meet(layout, one, other);
      if (box !== undefined && found.push(box) > most) return undefined;
    }
  }
  return found;
}

/** Steps that a proof may still take; it is given up where none are left. */
export interface Budget {
  steps: number;
}

/** Whether every patient of `a` is one of `b`; nothing where the budget does not reach. */
export function within(layout: Layout, a: Region, b: Region, budget: Budget): boolean | undefined {
  const hull = b.length === 1 ? b[0]! : hullOf(b);
  for (const box of a) {
    // Most pairs have nothing to do with each other: this settles them without taking a box apart.
    if (hull === undefined || !isInside(layout, box, hull)) return false;
    if (b.length === 1 || b.some((other) => isInside(layout, box, other))) continue;
    const covered = isCovered(layout, box, b, 0, budget);
    if (covered !== true) return covered;
  }
  return true;
}

function isInside({ fullOf }: Layout, box: Box, other: Box): boolean {
  let at = 0;
  for (let index = 0; index < other.words.length; index += 1) {
    const word = other.words[index]!;
    while (at < box.words.length && box.words[at]! < word) at += 1;
    const mask = box.words[at] === word ? box.masks[at]! : fullOf[word]!;
    if ((mask & ~other.masks[index]!) !== 0) return false;
  }
  return true;
}

const hulls = new WeakMap<Region, Box | null>();

/** The smallest box around a region; nothing where nobody is in it. */
function hullOf(region: Region): Box | undefined {
  const known = hulls.get(region);
  if (known !== undefined) return known ?? undefined;
  const [first, ...rest] = region;
  const hull = rest.reduce<Box | undefined>((around, box) => around && hullOfTwo(around, box), first);
  hulls.set(region, hull ?? null);
  return hull;
}

/** A fact that one of them does not limit is not limited. */
function hullOfTwo(a: Box, b: Box): Box {
  const words = a.words.filter((word) => b.words.includes(word));
  const maskOf = ({ words: own, masks }: Box, word: number): number => masks[own.indexOf(word)]!;
  return { words, masks: words.map((word) => maskOf(a, word) | maskOf(b, word)) };
}

function isCovered(layout: Layout, box: Box, by: Region, from: number, budget: Budget): boolean | undefined {
  for (let index = from; index < by.length; index += 1) {
    budget.steps -= 1;
    if (budget.steps < 0) return undefined;
    if (!meets(layout, box, by[index]!)) continue;
    for (const rest of outside(layout, box, by[index]!)) {
      const covered = isCovered(layout, rest, by, index + 1, budget);
      if (covered !== true) return covered;
    }
    return true;
  }
  return false;
}

/** A box without what another holds, in boxes that do not overlap. */
function outside(layout: Layout, box: Box, other: Box): Box[] {
  const found: Box[] = [];
  let inside = box;
  for (let at = 0; at < other.words.length; ) {
    const owner = layout.ownerOf[other.words[at]!];
    const words: number[] = [];
    const without: number[] = [];
    const within: number[] = [];
    for (; at < other.words.length && layout.ownerOf[other.words[at]!] === owner; at += 1) {
      const word = other.words[at]!;
      words.push(word);
      within.push(other.masks[at]!);
      without.push(layout.fullOf[word]! & ~other.masks[at]!);
    }
    const left = without.some((mask) => mask !== 0)
      ? meet(layout, inside, { words, masks: without })
      : undefined;
    if (left !== undefined) found.push(left);
    inside = meet(layout, inside, { words, masks: within })!;
  }
  return found;
}
