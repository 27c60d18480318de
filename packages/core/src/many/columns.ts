import type { Reading } from '../facts/reading.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { LeafTest } from '../plan/leaf.ts';
import { negated, noPlanes, type Planes, put, type Room } from './planes.ts';

/** One fact of many cases: what each of them may be, in a form that a condition runs over. */
export interface Column {
  readonly recorded: Planes;
  /** Ends of numbers, instants and days; an empty array where the fact is none of these. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** By code (or `true`, `false`): cases in which it may be the value, or is among the answers. */
  readonly codes: ReadonlyMap<string, Planes>;
}

/** Builds the column of one fact, a reading at a time; row after row. */
export class ColumnWriter {
  private readonly rows: number;
  private readonly recorded: Planes;
  private low = new Float64Array(0);
  private high = new Float64Array(0);
  private readonly codes = new Map<string, Planes>();

  constructor(rows: number) {
    this.rows = rows;
    this.recorded = noPlanes(rows);
  }

  write(row: number, { bounds, recorded }: Reading): void {
    this.mark(this.recorded, row, recorded);
    switch (bounds.kind) {
      case 'interval':
        if (this.low.length === 0) {
          this.low = new Float64Array(this.rows);
          this.high = new Float64Array(this.rows);
        }
        this.low[row] = bounds.low;
        this.high[row] = bounds.high;
        break;
      case 'possible': {
        const { possible } = bounds;
        for (let index = 0; index < possible.length; index += 1)
          put(this.planesOf(possible[index]!).possible, row);
        break;
      }
      case 'answers':
        for (const [code, answer] of bounds.answers) {
          if (answer !== FALSE) this.mark(this.planesOf(code), row, answer);
        }
        break;
    }
  }

  column(): Column {
    const { recorded, low, high, codes } = this;
    return { recorded, low, high, codes };
  }

  private mark(planes: Planes, row: number, truth: number): void {
    if (truth !== FALSE) put(planes.possible, row);
    if (truth === TRUE) put(planes.certain, row);
  }

  private planesOf(code: string): Planes {
    const known = this.codes.get(code);
    if (known) return known;
    const planes = noPlanes(this.rows);
    this.codes.set(code, planes);
    return planes;
  }
}

/** The truth of one leaf for every row. */
export function leafPlanes(test: LeafTest, column: Column, rows: number, room: Room): Planes {
  if (test.kind === 'recorded') {
    return test.negated ? negated(column.recorded, rows, room.planes()) : column.recorded;
  }
  const planes = room.planes();
  let { negated: isNot } = test;
  switch (test.kind) {
    case 'compare': {
      const { comparison, to } = test;
      const isOpposite = comparison === 'greaterThan' || comparison === 'greaterThanInclusive';
      compared(isOpposite ? OPPOSITES[comparison] : comparison, to, column, planes);
      if (isOpposite) isNot = !isNot;
      break;
    }
    case 'member':
      members(test.members, column, planes);
      break;
    case 'contains':
      for (const code of test.codes) {
        const found = column.codes.get(code);
        if (!found) continue;
        addTo(planes.certain, found.certain);
        addTo(planes.possible, found.possible);
      }
      break;
  }
  return isNot ? negated(planes, rows, planes) : planes;
}

/** Certain where every code that it may be is a member, and there is one; possible where one of them is. */
function members(wanted: ReadonlySet<string>, { codes }: Column, { certain, possible }: Planes): void {
  // First what it may be outside, then what of the inside is left.
  for (const [code, own] of codes) addTo(wanted.has(code) ? possible : certain, own.possible);
  for (let word = 0; word < certain.length; word += 1) certain[word] = possible[word]! & ~certain[word]!;
}

function addTo(bits: Uint32Array, more: Uint32Array): void {
  for (let word = 0; word < bits.length; word += 1) bits[word]! |= more[word]!;
}

/** What is compared as the opposite of another comparison, whose loop serves both. */
const OPPOSITES = { greaterThan: 'lessThanInclusive', greaterThanInclusive: 'lessThan' } as const;

/**
 * One comparison over the ends of all rows; each has a loop of its own, without a branch in it: what comes out is as
 * good as random to the processor.
 */
function compared(
  comparison: 'lessThan' | 'lessThanInclusive' | 'equal',
  to: number,
  { low, high }: Column,
  { certain, possible }: Planes,
): void {
  const last = low.length;
  for (let row = 0, word = 0; row < last; word += 1) {
    const end = Math.min(row + 32, last);
    let [sure, maybe] = [0, 0];
    switch (comparison) {
      case 'lessThan':
        for (let bit = 1; row < end; row += 1, bit <<= 1) {
          sure |= -(high[row]! < to) & bit;
          maybe |= -(low[row]! < to) & bit;
        }
        break;
      case 'lessThanInclusive':
        for (let bit = 1; row < end; row += 1, bit <<= 1) {
          sure |= -(high[row]! <= to) & bit;
          maybe |= -(low[row]! <= to) & bit;
        }
        break;
      case 'equal':
        for (let bit = 1; row < end; row += 1, bit <<= 1) {
          sure |= -(low[row]! === to) & -(high[row]! === to) & bit;
          maybe |= -(low[row]! <= to) & -(high[row]! >= to) & bit;
        }
        break;
    }
    certain[word] = sure;
    possible[word] = maybe;
  }
}
