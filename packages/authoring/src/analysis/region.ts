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

/** Whether every fact that both limit has an atom left: one that a single box limits has. */
export function meets({ ownerOf }: Layout, a: Box, b: Box): boolean {
  let [i, j] = [0, 0];
  while (i < a.words.length && j < b.words.length) {
    const word = a.words[i]!;
    const other = b.words[j]!;
    if (word < other) i += 1;
    else if (word > other) j += 1;
    else {
      const owner = ownerOf[word]!;
      let left = 0;
      // Both name all words of a fact that they limit.
      for (; i < a.words.length && ownerOf[a.words[i]!] === owner; i += 1, j += 1) {
        left |= a.masks[i]! & b.masks[j]!;
      }
      if (left === 0) return false;
    }
  }
  return true;
}

/** What is left of both boxes; nothing where some fact has no atom left. */
export function meet(layout: Layout, a: Box, b: Box): Box | undefined {
  if (!meets(layout, a, b)) return undefined;
  const words: number[] = [];
  const masks: number[] = [];
  for (let i = 0, j = 0; i < a.words.length || j < b.words.length; ) {
    const x = i < a.words.length ? a.words[i]! : Infinity;
    const y = j < b.words.length ? b.words[j]! : Infinity;
    words.push(Math.min(x, y));
    masks.push((x <= y ? a.masks[i]! : -1) & (y <= x ? b.masks[j]! : -1));
    if (x <= y) i += 1;
    if (y <= x) j += 1;
  }
  return { words, masks };
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
    if (b.length === 1) continue;
    const covered = isCovered(layout, box, b, budget);
    if (covered !== true) return covered;
  }
  return true;
}

/** The share of the combinations of atoms in a box that another one holds. */
function shareIn({ ownerOf, fullOf }: Layout, box: Box, other: Box): number {
  let share = 1;
  let at = 0;
  for (let index = 0; index < other.words.length; ) {
    const owner = ownerOf[other.words[index]!];
    let [both, own] = [0, 0];
    for (; index < other.words.length && ownerOf[other.words[index]!] === owner; index += 1) {
      const word = other.words[index]!;
      while (at < box.words.length && box.words[at]! < word) at += 1;
      const mask = box.words[at] === word ? box.masks[at]! : fullOf[word]!;
      both += bitsIn(mask & other.masks[index]!);
      own += bitsIn(mask);
    }
    share *= both / own;
    if (share === 0) return 0;
  }
  return share;
}

export function bitsIn(mask: number): number {
  let rest = mask - ((mask >>> 1) & 0x55555555);
  rest = (rest & 0x33333333) + ((rest >>> 2) & 0x33333333);
  return Math.imul((rest + (rest >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
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

/** Sums of shares that are all there may fall short of it by their rounding. */
const ALMOST_ALL = 1 - 1e-6;

/**
 * Takes the box apart by the one that holds most of it, until one holds all of what is left, or all of them together
 * hold too little: most of what is not covered shows by that.
 */
function isCovered(layout: Layout, box: Box, by: Region, budget: Budget): boolean | undefined {
  budget.steps -= by.length;
  if (budget.steps < 0) return undefined;
  let [filled, most, largest] = [0, 0, -1];
  for (let index = 0; index < by.length; index += 1) {
    const share = shareIn(layout, box, by[index]!);
    if (share === 1) return true;
    filled += share;
    if (share <= most) continue;
    most = share;
    largest = index;
  }
  if (filled < ALMOST_ALL) return false;
  const others = by.filter((other, index) => index !== largest && meets(layout, box, other));
  for (const rest of outside(layout, box, by[largest]!)) {
    const covered = isCovered(layout, rest, others, budget);
    if (covered !== true) return covered;
  }
  return true;
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
