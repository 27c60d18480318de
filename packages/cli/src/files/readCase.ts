import { caseReader, type Diagnostic, type Library } from '@dwellset/authoring';
import type { Case } from '@dwellset/core';
import { placeWords } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { readText } from './readText.ts';

/** The first mistake in one line, the others counted. */
export function firstOf(diagnostics: readonly Diagnostic[]): string {
  const [first, ...others] = diagnostics.filter(({ severity }) => severity === 'error');
  if (!first) return '';
  const hint = first.hint === undefined ? '' : `; ${first.hint}`;
  const more = others.length === 0 ? '' : ` (and ${others.length} more)`;
  return `${placeWords(first)}: ${first.message}${hint}${more}`;
}

/** Values that the evaluator sets aside one by one, says so, and asks for again; the rest of the case still counts. */
const SET_ASIDE: ReadonlySet<string> = new Set(['wrong-unit', 'impossible-value']);

/** Mistakes for which a case is refused as a whole. */
export const seriousIn = (diagnostics: readonly Diagnostic[]): Diagnostic[] =>
  diagnostics.filter(({ severity, code }) => severity === 'error' && !SET_ASIDE.has(code));

/** A case that can be read; a broken or misspelt one is refused as a whole, with the place of the first mistake. */
export function readCase(path: string, library: Library): Case {
  const { value, diagnostics } = caseReader(library)(path, readText(path));
  const mistakes = seriousIn(diagnostics);
  if (mistakes.length > 0) throw new CannotRun(firstOf(mistakes));
  return value as Case;
}
