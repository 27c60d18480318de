import { check } from '../../../packages/authoring/src/check/check.ts';
import type { Code } from '../../../packages/authoring/src/check/codes.ts';
import type { Diagnostic, Range } from '../../../packages/authoring/src/diagnostic.ts';
import { readLibrary } from '../../../packages/authoring/src/library.ts';
import { base } from './base.ts';

/** One mistake: a passage of one document replaced. The offending token stands between « and ». */
export interface Example {
  readonly code: Code;
  /** What the author did, in words. */
  readonly mistake: string;
  readonly path: string;
  /** Absent: `to` is the whole document. */
  readonly from?: string;
  readonly to: string;
  /** Documents that do not exist in this example. */
  readonly without?: readonly string[];
  readonly hint?: string;
  /** Marks the token where it stands in another document than the one that is edited. */
  readonly markedIn?: { readonly path: string; readonly from: string; readonly to: string };
}

export interface Provoked {
  readonly found: readonly Diagnostic[];
  readonly expected: { readonly path: string; readonly range: Range };
}

export const checkFiles = (files: ReadonlyMap<string, string>): Diagnostic[] => check(readLibrary(files));

export function provoke({ path, from, to, without = [], markedIn }: Example): Provoked {
  const files = new Map(base);
  for (const gone of without) files.delete(gone);
  files.set(path, from === undefined ? to : replaced(files.get(path) ?? '', from, to));
  const marked = markedIn?.path ?? path;
  if (markedIn) files.set(marked, replaced(files.get(marked) ?? '', markedIn.from, markedIn.to));
  const text = files.get(marked)!;
  const start = text.indexOf('«');
  const end = text.indexOf('»') - 1;
  if (start < 0 || end < start) throw new Error('the example marks no token');
  const plain = text.replace('«', '').replace('»', '');
  files.set(marked, plain);
  const [first, last] = [position(plain, start), position(plain, end)];
  const range = { line: first[0], column: first[1], endLine: last[0], endColumn: last[1] };
  return { found: checkFiles(files), expected: { path: marked, range } };
}

function replaced(text: string, from: string, to: string): string {
  if (text.split(from).length !== 2)
    throw new Error(`\`${from}\` does not stand exactly once in the base document`);
  return text.replace(from, () => to);
}

function position(text: string, offset: number): [line: number, column: number] {
  const lines = text.slice(0, offset).split('\n');
  return [lines.length, lines.at(-1)!.length + 1];
}
