import { canonicalJson, INDICATORS, type Release, type Rule } from '@dwellset/core';
import { type Piece, standsAt } from './pieces.ts';

const same = (a: unknown, b: unknown): boolean =>
  a === undefined || b === undefined ? a === b : canonicalJson(a) === canonicalJson(b);

const linesOf = (detail: string | readonly string[] | undefined): readonly string[] =>
  typeof detail === 'string' ? [detail] : (detail ?? []);

/** Whether a base says by itself what the hospital says on top of it. */
export function saysTheSame(piece: Piece, release: Release): boolean {
  const { kind, local } = piece;
  const there = standsAt(piece, release);
  if (there === undefined || kind === 'switchOff') return false;
  if (kind === 'set') return same(there, local);
  if (kind === 'stock') return same(there, local);
  const rule = there as Rule;
  if (kind === 'reword')
    return Object.entries(local as object).every(([key, words]) => same(wordsAt(rule, key), words));
  if (kind === 'addText') {
    const lines = linesOf(rule.advice?.detail);
    return (local as readonly string[]).every((line) => lines.includes(line));
  }
  if (kind === 'raise') {
    const now = rule.advice?.indicator;
    return now !== undefined && INDICATORS.indexOf(now) >= INDICATORS.indexOf(local as typeof now);
  }
  return same(withoutMarks(rule), withoutMarks(local as Rule));
}

const wordsAt = (rule: Rule, key: string): unknown =>
  key === 'title' || key === 'because' ? rule[key] : rule.advice?.[key as 'summary' | 'detail'];

const withoutMarks = ({ local: _, ...rule }: Rule): unknown => rule;
