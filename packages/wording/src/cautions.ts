import { CAUTIONS } from '@dwellset/core';
import { wrap } from './layout.ts';

/** What stands under every text that advises. */
export const cautions: readonly string[] = CAUTIONS;

export const cautionLines = (lines: readonly string[], width: number): string[] =>
  lines.flatMap((line) => wrap(line, width));
