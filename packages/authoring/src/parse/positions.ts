import type { Range } from '../diagnostic.ts';

/** Turns offsets of a text into lines and columns; a line ends at LF, CR LF or CR. */
export class Positions {
  readonly #starts: number[] = [0];

  constructor(text: string) {
    for (const end of text.matchAll(/\r\n|\n|\r/g)) this.#starts.push(end.index + end[0].length);
  }

  range(offset: number, length: number): Range {
    const start = this.#at(offset);
    const end = this.#at(offset + length);
    return { line: start.line, column: start.column, endLine: end.line, endColumn: end.column };
  }

  #at(offset: number): { line: number; column: number } {
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.#starts[middle]! <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - this.#starts[low]! + 1 };
  }
}
