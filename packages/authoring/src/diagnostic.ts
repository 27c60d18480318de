/** A stretch of a document; lines and columns count from 1, columns in UTF-16 units, the end is exclusive. */
export interface Range {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export type Severity = 'error' | 'warning';

/** One mistake in one document, as data; `wording` makes text of it. */
export interface Diagnostic {
  readonly code: string;
  readonly severity: Severity;
  /** Path of the document, relative to the policies folder. */
  readonly path: string;
  /** JSON Pointer (RFC 6901) of the offending value or key. */
  readonly pointer: string;
  readonly range: Range;
  readonly expected?: string;
  readonly received?: string;
  /** One sentence, lower case, no full stop, the author's own text in backticks. */
  readonly message: string;
  readonly hint?: string;
}

/** Document order: path first, then position; ties keep the order in which they were found. */
export function inDocumentOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  return [...diagnostics].sort(
    (a, b) =>
      (a.path < b.path ? -1 : a.path > b.path ? 1 : 0) ||
      a.range.line - b.range.line ||
      a.range.column - b.range.column,
  );
}
