import { FORBIDDEN } from './keys.ts';
import { isTooLarge, MAXIMUM_DEPTH } from './size.ts';

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COLON = 0x3a;

/**
 * The value of a text in which nothing is wrong, without the positions of its parts: a tenth of the work. Undefined
 * for any other text; what is wrong with it, `parseSource` says.
 */
export function plainJson(text: string): unknown {
  if (isTooLarge(text)) return undefined;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  // Of two equal keys JSON.parse keeps one: then the text has more colons than the value has keys.
  return keysIn(value, 0) === colonsIn(text) ? value : undefined;
}

/** How many keys a value has at all levels; NaN where one is forbidden or the value is nested too deep. */
function keysIn(value: unknown, depth: number): number {
  if (typeof value !== 'object' || value === null) return 0;
  if (depth >= MAXIMUM_DEPTH) return Number.NaN;
  let count = 0;
  if (Array.isArray(value)) {
    for (const item of value) count += keysIn(item, depth + 1);
    return count;
  }
  for (const key of Object.keys(value)) {
    if (FORBIDDEN.has(key)) return Number.NaN;
    count += 1 + keysIn((value as Readonly<Record<string, unknown>>)[key], depth + 1);
  }
  return count;
}

/** Colons of a JSON text that stand outside its strings. */
function colonsIn(text: string): number {
  let count = 0;
  let inside = false;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    if (unit === QUOTE) inside = !inside;
    else if (unit === BACKSLASH) at += 1;
    else if (unit === COLON && !inside) count += 1;
  }
  return count;
}
