import { checkCase, type Diagnostic, type Library, parseSource } from '@dwellset/authoring';
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

/** A case that is sound; anything else is refused as a whole, with the place of the first mistake. */
export function readCase(path: string, library: Library): Case {
  const source = parseSource(path, readText(path));
  const mistakes = checkCase(library, path, source.text).filter(({ severity }) => severity === 'error');
  if (mistakes.length > 0) throw new CannotRun(firstOf(mistakes));
  return source.value as Case;
}
