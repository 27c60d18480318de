import type { Diagnostic } from '../diagnostic.ts';
import { childPointer } from '../parse/pointer.ts';
import type { Part } from '../parse/source.ts';
import { CODES, type Code } from './codes.ts';
import type { Cursor } from './cursor.ts';

export interface Finding {
  readonly message: string;
  /** Which token is offending; the head of the value unless stated. */
  readonly part?: Part;
  /** Characters of a text (or key) that are offending, where it is not all of it. */
  readonly span?: readonly [start: number, end: number];
  readonly expected?: string | undefined;
  readonly received?: string | undefined;
  readonly hint?: string | undefined;
}

/**
 * Gathers diagnostics. A token carries at most one: whoever reports first has the better explanation, and what
 * follows is its echo. Marks on a bracket are exempt, since several things may be missing in one object.
 */
export class Findings {
  readonly found: Diagnostic[] = [];
  readonly #marked = new Set<string>();
  readonly #meant = new Set<string>();

  /** Notes that an object holds a key under a wrong spelling. */
  noteMisspelt(parent: Cursor, key: string): void {
    this.#meant.add(place(parent, key));
  }

  /** Whether an object holds one of these keys under a wrong spelling, so that it is not missing as well. */
  isMisspelt(parent: Cursor, ...keys: readonly string[]): boolean {
    return keys.some((key) => this.#meant.has(place(parent, key)));
  }

  report(code: Code, at: Cursor, { message, part = 'head', span, ...rest }: Finding): void {
    const { source, pointer } = at;
    const range =
      span === undefined
        ? source.locate(pointer, part)
        : source.locateWithin(pointer, span[0], span[1], part === 'key' ? 'key' : 'value');
    const token = part === 'key' || (at.exists && typeof at.value !== 'object');
    const mark = `${source.path}:${range.line}:${range.column}`;
    if (token && this.#marked.has(mark)) return;
    if (token) this.#marked.add(mark);
    const { expected, received, hint } = rest;
    this.found.push({
      code,
      severity: CODES[code].severity,
      path: source.path,
      pointer,
      range,
      ...(expected !== undefined && { expected }),
      ...(received !== undefined && { received }),
      message,
      ...(hint !== undefined && { hint }),
    });
  }
}

const place = ({ source, pointer }: Cursor, key: string): string =>
  `${source.path}:${childPointer(pointer, key)}`;
