import { type Node, TRUE } from '@dwellset/core';
import { both, EVERYBODY, type Layout, NOBODY, type Region } from './region.ts';
import { isWanted, type Wanted } from './wanted.ts';

const TURNED: Readonly<Record<Wanted, Wanted>> = {
  true: 'false',
  false: 'true',
  'not-true': 'not-false',
  'not-false': 'not-true',
};

/** What comparisons mean in boxes. */
export interface Cuts {
  readonly layout: Layout;
  /** The patients of whom a comparison, or a local choice, has one of these truths. */
  regionOfLeaf(at: number, wanted: Wanted): Region;
}

/** Beyond this a condition is no longer written out in boxes. */
const MOST_BOXES = 1000;

/**
 * The patients of whom a condition has one of these truths, written out in boxes. Strong Kleene is put together from
 * the truths of the parts alone, so this is exact as far as the atoms are. Nothing where there are too many boxes.
 */
export function regionOf(cuts: Cuts, node: Node | undefined, wanted: Wanted): Region | undefined {
  // A part that is not there is true.
  if (node === undefined) return isWanted(TRUE, wanted) ? EVERYBODY : NOBODY;
  switch (node.kind) {
    case 'fact':
    case 'parameter':
      return cuts.regionOfLeaf(node.at, wanted);
    case 'named':
      return regionOf(cuts, node.of[0], wanted);
    case 'not':
      return regionOf(cuts, node.of[0], TURNED[wanted]);
    case 'all':
    case 'any': {
      const every = (node.kind === 'all') === (wanted === 'true' || wanted === 'not-false');
      const regions: Region[] = [];
      for (const inner of node.of) {
        const region = regionOf(cuts, inner, wanted);
        if (region === undefined) return undefined;
        regions.push(region);
      }
      return every ? ofAll(cuts, regions) : ofAny(regions);
    }
  }
}

/** The smallest region first, so that as little as possible is multiplied. */
export function ofAll({ layout }: Pick<Cuts, 'layout'>, regions: readonly Region[]): Region | undefined {
  const ordered = [...regions].sort((a, b) => a.length - b.length);
  let left: Region | undefined = EVERYBODY;
  for (const region of ordered) {
    left = left && both(layout, left, region, MOST_BOXES);
  }
  return left;
}

/** Boxes that limit one and the same fact become one. */
export function ofAny(regions: readonly Region[]): Region | undefined {
  const all = regions.flat();
  if (all.some(({ words }) => words.length === 0)) return EVERYBODY;
  const merged = new Map<string, { words: readonly number[]; masks: readonly number[] }>();
  const rest: Region[number][] = [];
  for (const box of all) {
    // A box of one word limits a single fact; unions of those are exact.
    if (box.words.length !== 1) rest.push(box);
    else {
      const key = String(box.words[0]);
      const known = merged.get(key);
      merged.set(key, known ? { words: box.words, masks: [known.masks[0]! | box.masks[0]!] } : box);
    }
  }
  const found = [...merged.values(), ...rest];
  return found.length > MOST_BOXES ? undefined : found;
}
