import type { Range } from '@dwellset/authoring';

/** Offset of a place in a text; lines and columns count from 1. */
function offsetOf(text: string, line: number, column: number): number {
  let at = 0;
  for (let passed = 1; passed < line; passed += 1) {
    const next = text.indexOf('\n', at);
    if (next < 0) return text.length;
    at = next + 1;
  }
  return Math.min(at + column - 1, text.length);
}

export const stretchOf = (
  text: string,
  { line, column, endLine, endColumn }: Range,
): readonly [number, number] => [offsetOf(text, line, column), offsetOf(text, endLine, endColumn)];

/** Puts another name where a diagnostic points; quotation marks stay where the place has them. */
export function mended(text: string, range: Range, name: string): string {
  const [from, to] = stretchOf(text, range);
  const stood = text.slice(from, to);
  const put = stood.startsWith('"') ? JSON.stringify(name) : name;
  return text.slice(0, from) + put + text.slice(to);
}
