import { random } from '../random.ts';
import { type Box, bitsIn, type Layout, type Region } from './region.ts';

/** One bit a patient, 32 of them a word. */
export type Plane = Int32Array;

/** Enough that nearly every two regions that differ differ about one of them; more take longer than they save. */
const PATIENTS_EACH = 4;
const MOST_PATIENTS = 512;

/**
 * Patients made up at random, one atom of each fact: some of every region, so that those of narrow ones are among
 * them. Who of them is in a region stands in a plane, so that one look at two planes settles most questions about two
 * regions. Nobody among them settles nothing. The same regions bring the same patients.
 */
export class Crowd {
  private readonly layout: Layout;
  private readonly words: number;
  /** By word of the layout, then by patient: the bit of his atom, where it stands in that word. */
  private readonly atoms: Int32Array;
  private readonly count: number;
  private readonly limited = new Map<string, Plane>();

  constructor(layout: Layout, regions: readonly Region[]) {
    this.layout = layout;
    const boxes = spread(regions, Math.min(PATIENTS_EACH * regions.length, MOST_PATIENTS));
    this.words = (boxes.length + 31) >>> 5;
    this.count = boxes.length;
    this.atoms = new Int32Array(layout.fullOf.length * this.count);
    const { next } = random(this.count);
    for (const [patient, box] of boxes.entries()) this.add(patient, box, next);
  }

  /** Who of them is in a region. */
  planeOf(region: Region): Plane {
    const plane = new Int32Array(this.words);
    for (const box of region) {
      const inside = this.planeOfBox(box);
      for (let word = 0; word < plane.length; word += 1) plane[word]! |= inside[word]!;
    }
    return plane;
  }

  private planeOfBox({ words, masks }: Box): Plane {
    const { ownerOf } = this.layout;
    const plane = this.everybody();
    for (let at = 0; at < words.length; ) {
      const owner = ownerOf[words[at]!];
      let own = this.planeOfMask(words[at]!, masks[at]!);
      for (at += 1; at < words.length && ownerOf[words[at]!] === owner; at += 1) {
        const more = this.planeOfMask(words[at]!, masks[at]!);
        own = own.map((bits, word) => bits | more[word]!);
      }
      for (let word = 0; word < plane.length; word += 1) plane[word]! &= own[word]!;
    }
    return plane;
  }

  private everybody(): Plane {
    const plane = new Int32Array(this.words).fill(-1);
    if (this.count % 32 > 0) plane[this.words - 1] = (1 << (this.count % 32)) - 1;
    return plane;
  }

  private planeOfMask(word: number, mask: number): Plane {
    const key = `${word} ${mask}`;
    const known = this.limited.get(key);
    if (known) return known;
    const { atoms, count } = this;
    const plane = new Int32Array(this.words);
    for (let patient = 0; patient < count; patient += 1) {
      if ((atoms[word * count + patient]! & mask) !== 0) plane[patient >>> 5]! |= 1 << (patient & 31);
    }
    this.limited.set(key, plane);
    return plane;
  }

  /** Each atom that the box leaves to a fact is as likely as the others. */
  private add(patient: number, { words, masks }: Box, next: () => number): void {
    const { ownerOf, fullOf } = this.layout;
    let at = 0;
    for (let first = 0; first < fullOf.length; ) {
      const named = words[at] === first;
      const maskOf = (word: number): number => (named ? masks[at + word - first]! : fullOf[word]!);
      let [end, total] = [first, 0];
      for (; ownerOf[end] === ownerOf[first]; end += 1) total += bitsIn(maskOf(end));
      let before = Math.floor(next() * total);
      for (let word = first; before >= 0; word += 1) {
        const own = bitsIn(maskOf(word));
        if (before < own) this.atoms[word * this.count + patient] = bitAt(maskOf(word), before);
        before -= own;
      }
      if (named) at += end - first;
      first = end;
    }
  }
}

/** The bit of a mask before which so many others are set. */
function bitAt(mask: number, before: number): number {
  let rest = mask;
  for (let left = before; left > 0; left -= 1) rest &= rest - 1;
  return rest & -rest;
}

/** The first box of every region, then the second of each that has more, and so on; some may come more than once. */
function spread(regions: readonly Region[], most: number): Box[] {
  const boxes: Box[] = [];
  const open = regions.filter(({ length }) => length > 0);
  for (let round = 0; open.length > 0 && boxes.length < most; round += 1) {
    boxes.push(...open.flatMap((region) => region[round % region.length]!));
  }
  return boxes.slice(0, most);
}
