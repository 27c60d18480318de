import { clean, WIDTH, wrap } from '../layout.ts';

/** One mistake in one document, as the authoring package reports it. */
export interface DiagnosticShown {
  readonly code: string;
  readonly severity: 'error' | 'warning';
  readonly path: string;
  readonly range: { readonly line: number; readonly column: number };
  readonly message: string;
  readonly hint?: string;
}

/** `path:line:column`, which editors and terminals turn into a link. */
export const placeWords = ({ path, range }: Pick<DiagnosticShown, 'path' | 'range'>): string =>
  clean(`${path}:${range.line}:${range.column}`);

/** Where, how grave and of which kind, then the sentence. The place is never broken over two lines. */
export function diagnosticText(diagnostic: DiagnosticShown, width = WIDTH): string {
  const { code, severity, message, hint } = diagnostic;
  const sentence = hint === undefined ? message : `${message}; ${hint}`;
  return [`${placeWords(diagnostic)} · ${severity} · ${code}`, ...wrap(sentence, width, '  ')].join('\n');
}
