import type { CaseReader, Diagnostic } from '@dwellset/authoring';
import { assess, type Case, type Plan } from '@dwellset/core';
import { seriousIn } from '../files/readCase.ts';
import { type LineBlock, MOST_LINE_BYTES } from './lineBlocks.ts';
import { briefly } from './record.ts';

export type Reasons = 'deciding' | 'all' | 'none';

/** What one thread needs to work on lines. */
export interface Desk {
  readonly plan: Plan;
  readonly read: CaseReader;
  readonly reasons: Reasons;
}

export interface BlockDone {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Cases assessed, and lines that held none. */
  readonly cases: number;
  readonly bad: number;
}

const LINE_FEED = 0x0a;
const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true });

/** Assesses the lines of a block; a line that cannot be read gives a line that says why. */
export function assessBlock(desk: Desk, { bytes, first }: LineBlock): BlockDone {
  const out: string[] = [];
  let [cases, bad] = [0, 0];
  let line = first;
  for (let from = 0; from < bytes.length; line += 1) {
    const found = bytes.indexOf(LINE_FEED, from);
    const end = found === -1 ? bytes.length : found;
    const made = assessLine(desk, bytes.subarray(from, end));
    from = end + 1;
    if (made === undefined) continue;
    if ('error' in made) bad += 1;
    else cases += 1;
    out.push(JSON.stringify({ line, ...made }), '\n');
  }
  return { bytes: encoder.encode(out.join('')) as Uint8Array<ArrayBuffer>, cases, bad };
}

interface LineError {
  readonly code: string;
  readonly message: string;
  readonly pointer?: string;
  /** In characters, from 1. */
  readonly column?: number;
  readonly hint?: string;
}

type Made = { readonly error: LineError } | { readonly assessment: unknown } | ReturnType<typeof briefly>;

/** An empty line is no case and no mistake. */
function assessLine({ plan, read, reasons }: Desk, bytes: Uint8Array): Made | undefined {
  if (bytes.length >= MOST_LINE_BYTES) {
    return {
      error: {
        code: 'too-large',
        message: `the line is longer than ${MOST_LINE_BYTES - 1} bytes and is not read`,
      },
    };
  }
  let text: string;
  try {
    text = decoder.decode(bytes);
  } catch {
    return { error: { code: 'not-utf8', message: 'the line is not UTF-8 text' } };
  }
  if (text.trim() === '') return undefined;
  const { value, diagnostics } = read('', text);
  const [serious] = seriousIn(diagnostics);
  if (serious) return { error: errorOf(serious) };
  if (reasons !== 'none') return { assessment: assess(plan, value as Case, { reasons }) };
  return briefly(assess(plan, value as Case, { reasons, optionFacts: false }));
}

const errorOf = ({ code, message, pointer, range, hint }: Diagnostic): LineError => ({
  code,
  message,
  pointer,
  column: range.column,
  ...(hint === undefined ? {} : { hint }),
});
