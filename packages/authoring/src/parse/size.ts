import { createScanner } from 'jsonc-parser';

export const MAXIMUM_BYTES = 1024 * 1024;
export const MAXIMUM_DEPTH = 64;

/** Whether the text takes more than 1 MiB in UTF-8. */
export function isTooLarge(text: string): boolean {
  if (text.length > MAXIMUM_BYTES) return true;
  // No UTF-16 unit takes more than three bytes in UTF-8.
  if (text.length * 3 <= MAXIMUM_BYTES) return false;
  let bytes = 0;
  for (const character of text) {
    const point = character.codePointAt(0)!;
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
  }
  return bytes > MAXIMUM_BYTES;
}

// Numbers of jsonc-parser's SyntaxKind, a const enum that cannot be imported under verbatimModuleSyntax.
const OPEN: ReadonlySet<number> = new Set([1, 3]);
const CLOSE: ReadonlySet<number> = new Set([2, 4]);
const END = 17;

/** Offset of the first bracket nested too deep; found without recursion, so that no input overflows the stack. */
export function firstBeyondDepth(text: string): number | undefined {
  const scanner = createScanner(text, true);
  let depth = 0;
  for (let token: number = scanner.scan(); token !== END; token = scanner.scan()) {
    if (OPEN.has(token) && ++depth > MAXIMUM_DEPTH) return scanner.getTokenOffset();
    if (CLOSE.has(token)) depth -= 1;
  }
  return undefined;
}
