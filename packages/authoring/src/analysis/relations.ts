import { Crowd, type Plane } from './crowd.ts';
import { type Layout, NOBODY, overlap, type Region, within } from './region.ts';

/** Steps of a proof that one union of boxes lies within another. */
export const STEPS = 200_000;

/**
 * How regions stand to each other, by their numbers. What patients made up at random show by themselves needs no
 * proof: that two regions meet, or that somebody of one is left out by others.
 */
export class Relations {
  private readonly layout: Layout;
  private readonly regions: readonly (Region | undefined)[];
  private readonly planes: readonly Plane[];

  /** A region that could not be written out is none. */
  constructor(layout: Layout, regions: readonly (Region | undefined)[]) {
    this.layout = layout;
    this.regions = regions;
    const crowd = new Crowd(
      layout,
      regions.filter((region) => region !== undefined),
    );
    this.planes = regions.map((region) => crowd.planeOf(region ?? NOBODY));
  }

  /** Whether some combination of atoms is in both; nothing where one of them could not be written out. */
  meet(a: number, b: number): boolean | undefined {
    const [own, other] = [this.planes[a]!, this.planes[b]!];
    for (let word = 0; word < own.length; word += 1) if ((own[word]! & other[word]!) !== 0) return true;
    const [one, two] = [this.regions[a], this.regions[b]];
    return one && two && overlap(this.layout, one, two);
  }

  /**
   * Whether all of one are in some of the others; nothing where one of them could not be written out, or where that
   * takes too many steps.
   */
  within(a: number, by: readonly number[]): boolean | undefined {
    const { regions } = this;
    const own = regions[a];
    if (own === undefined) return undefined;
    for (const b of by) if (regions[b] === undefined) return undefined;
    if (this.leavesOut(a, by)) return false;
    const others = by.length === 1 ? regions[by[0]!]! : by.flatMap((b) => regions[b]!);
    return within(this.layout, own, others, { steps: STEPS });
  }

  private leavesOut(a: number, by: readonly number[]): boolean {
    const own = this.planes[a]!;
    for (let word = 0; word < own.length; word += 1) {
      let left = own[word]!;
      for (const b of by) left &= ~this.planes[b]![word]!;
      if (left !== 0) return true;
    }
    return false;
  }
}
