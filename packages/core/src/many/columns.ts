import type { Reading } from '../facts/reading.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { LeafTest } from '../plan/leaf.ts';
import { negated, noPlanes, type Planes, put } from './planes.ts';

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
export function leafPlanes(test: LeafTest, column: Column, rows: number): Planes {
  const plain = positive(test, column, rows);
  return test.negated ? negated(plain, rows) : plain;
}

function positive(test: LeafTest, column: Column, rows: number): Planes {
  switch (test.kind) {
    case 'recorded':
      return column.recorded;
    case 'compare':
      return compared(test, column, rows);
    case 'member':
      return members(test.members, column, rows);
    case 'contains': {
      const found = noPlanes(rows);
      for (const code of test.codes) {
        const planes = column.codes.get(code);
        if (planes) {
          addTo(found.certain, planes.certain);
          addTo(found.possible, planes.possible);
        }
      }
      return found;
    }
  }
}

/** Certain where every code that it may be is a member, and there is one; possible where one of them is. */
function members(wanted: ReadonlySet<string>, { codes }: Column, rows: number): Planes {
  const [inside, outside] = [noPlanes(rows).possible, noPlanes(rows).possible];
  for (const [code, { possible }] of codes) addTo(wanted.has(code) ? inside : outside, possible);
  return { certain: inside.map((bits, word) => bits & ~outside[word]!), possible: inside };
}

function addTo(bits: Uint32Array, more: Uint32Array): void {
  for (let word = 0; word < bits.length; word += 1) bits[word]! |= more[word]!;
}

/** One comparison over the ends of all rows; each comparison has a loop of its own, so that it stays a tight one. */
function compared(
  { comparison, to }: Extract<LeafTest, { readonly kind: 'compare' }>,
  { low, high }: Column,
  rows: number,
): Planes {
  const planes = noPlanes(rows);
  const { certain, possible } = planes;
  const last = low.length;
  for (let row = 0, word = 0; row < last; word += 1) {
    const end = Math.min(row + 32, last);
    let [sure, maybe] = [0, 0];
    const start = row;
    switch (comparison) {
      case 'lessThan':
        for (; row < end; row += 1) {
          if (high[row]! < to) sure |= 1 << (row - start);
          if (low[row]! < to) maybe |= 1 << (row - start);
        }
        break;
      case 'lessThanInclusive':
        for (; row < end; row += 1) {
          if (high[row]! <= to) sure |= 1 << (row - start);
          if (low[row]! <= to) maybe |= 1 << (row - start);
        }
        break;
      case 'greaterThan':
        for (; row < end; row += 1) {
          if (low[row]! > to) sure |= 1 << (row - start);
          if (high[row]! > to) maybe |= 1 << (row - start);
        }
        break;
      case 'greaterThanInclusive':
        for (; row < end; row += 1) {
          if (low[row]! >= to) sure |= 1 << (row - start);
          if (high[row]! >= to) maybe |= 1 << (row - start);
        }
        break;
      case 'equal':
        for (; row < end; row += 1) {
          if (low[row]! === to && high[row]! === to) sure |= 1 << (row - start);
          if (low[row]! <= to && to <= high[row]!) maybe |= 1 << (row - start);
        }
        break;
    }
    certain[word] = sure;
    possible[word] = maybe;
  }
  return planes;
}
