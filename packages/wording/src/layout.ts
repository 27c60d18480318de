/**
 * Text from cases and rule sets goes to terminals and printers: control characters and marks that reverse the
 * direction of writing could hide or fake a line.
 */
const UNPRINTABLE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu;

export const clean = (text: string): string => text.replace(UNPRINTABLE, ' ');

export const WIDTH = 80;
/** Below this the labels leave no room for words. */
const NARROWEST = 40;

export const usableWidth = (width: number | undefined): number =>
  Math.max(NARROWEST, Math.floor(width ?? WIDTH));

/** Separators stay with the word before them, so that no line begins with one. */
function tokens(text: string): string[] {
  const found: string[] = [];
  for (const token of clean(text).split(' ')) {
    if (token === '') continue;
    if ((token === '·' || token === '–') && found.length > 0) found[found.length - 1] += ` ${token}`;
    else found.push(token);
  }
  return found;
}

/** Breaks a text into lines no wider than `width`; a single longer word keeps a line of its own. */
export function wrap(text: string, width: number, first = '', rest = ' '.repeat(first.length)): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const token of tokens(text)) {
    if (!empty && line.length + 1 + token.length > width) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? token : ` ${token}`;
    empty = false;
  }
  return [...lines, line.trimEnd()];
}

const LABEL = 9;

/** `     Why      text`; several texts stand below each other under one label, what runs over set further in. */
export function labelled(label: string, texts: readonly string[], width: number, indent = 5): string[] {
  const margin = ' '.repeat(indent + LABEL);
  const over = texts.length > 1 ? `${margin}  ` : margin;
  return texts.flatMap((text, index) =>
    wrap(text, width, index === 0 ? `${' '.repeat(indent)}${label.padEnd(LABEL)}` : margin, over),
  );
}

/** Blocks of lines with one empty line between them; empty blocks leave no gap. */
export function blocks(parts: readonly (readonly string[])[]): string[] {
  return parts
    .filter((part) => part.length > 0)
    .flatMap((part, index) => (index === 0 ? part : ['', ...part]));
}

export const asText = (lines: readonly string[]): string => `${lines.join('\n')}\n`;
