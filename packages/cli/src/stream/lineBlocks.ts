/** Whole lines of a stream, one after the other in one piece of memory. */
export interface LineBlock {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Number of the first line, from 1. */
  readonly first: number;
  /** Line feeds among the bytes: the last line of a stream may have none. */
  readonly lines: number;
}

const LINE_FEED = 0x0a;
const END_OF_LINE = Uint8Array.of(LINE_FEED);

/** Longest line that is kept whole; of a longer one this much is passed on, which whoever reads it refuses. */
export const MOST_LINE_BYTES = 1024 * 1024 + 1;

/** Cuts a stream of bytes into blocks of whole lines. Holds no more than one block and the longest line. */
export async function* lineBlocks(
  chunks: AsyncIterable<Uint8Array>,
  blockBytes: number,
): AsyncGenerator<LineBlock> {
  let block = new Uint8Array(blockBytes);
  let used = 0;
  let first = 1;
  let lines = 0;
  /** Where the line that is being read begins. */
  let start = 0;
  const cut = (): LineBlock => {
    const made = { bytes: block.slice(0, start), first, lines };
    block.copyWithin(0, start, used);
    used -= start;
    start = 0;
    first += lines;
    lines = 0;
    return made;
  };
  const append = (part: Uint8Array): void => {
    if (used + part.length > block.length) {
      const larger = new Uint8Array(Math.max(block.length * 2, used + part.length));
      larger.set(block.subarray(0, used));
      block = larger;
    }
    block.set(part, used);
    used += part.length;
  };
  for await (const chunk of chunks) {
    for (let from = 0; from < chunk.length; ) {
      const found = chunk.indexOf(LINE_FEED, from);
      const end = found === -1 ? chunk.length : found;
      append(chunk.subarray(from, Math.min(end, from + Math.max(0, MOST_LINE_BYTES - (used - start)))));
      from = end + 1;
      if (found === -1) break;
      append(END_OF_LINE);
      start = used;
      lines += 1;
      if (start >= blockBytes) yield cut();
    }
  }
  start = used;
  if (used > 0) yield cut();
}
