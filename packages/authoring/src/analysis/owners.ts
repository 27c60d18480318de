import { EVERYBODY, type Layout, NOBODY, type Region } from './region.ts';

const BITS = 32;

interface Owner {
  readonly fact: string;
  /** Its values are cut loose from what else is known of the patient. */
  readonly loose: boolean;
  /** The first of its words. */
  readonly first: number;
}

/** The facts that boxes limit, each with room for its atoms. */
export class Owners implements Layout {
  readonly ownerOf: number[] = [];
  readonly fullOf: number[] = [];
  private readonly owners: Owner[] = [];

  /** Gives the number of the owner. */
  add(fact: string, atoms: number, loose: boolean): number {
    const owner = this.owners.push({ fact, loose, first: this.ownerOf.length }) - 1;
    for (let from = 0; from < atoms; from += BITS) {
      const bits = Math.min(BITS, atoms - from);
      this.ownerOf.push(owner);
      this.fullOf.push(bits === BITS ? -1 : (1 << bits) - 1);
    }
    return owner;
  }

  /** The patients of whom an owner has one of the atoms that are held. */
  boxOf(owner: number, held: readonly boolean[]): Region {
    if (held.every(Boolean)) return EVERYBODY;
    if (!held.some(Boolean)) return NOBODY;
    const first = this.owners[owner]!.first;
    const masks = Array.from({ length: Math.ceil(held.length / BITS) }, (_, word) =>
      held
        .slice(word * BITS, (word + 1) * BITS)
        .reduce((mask, bit, index) => (bit ? mask | (1 << index) : mask), 0),
    );
    return [{ words: masks.map((_, word) => first + word), masks }];
  }

  /** The first atom that each limited owner has left in a box, by number. */
  firstIn({ words, masks }: Region[number]): Map<number, number> {
    const found = new Map<number, number>();
    words.forEach((word, index) => {
      const owner = this.ownerOf[word]!;
      const mask = masks[index]!;
      if (found.has(owner) || mask === 0) return;
      const bit = 31 - Math.clz32(mask & -mask);
      found.set(owner, (word - this.owners[owner]!.first) * BITS + bit);
    });
    return found;
  }

  /** Whether a region limits a fact whose values are cut loose. */
  looseIn(region: Region): boolean {
    return region.some(({ words }) => words.some((word) => this.owners[this.ownerOf[word]!]!.loose));
  }
}
