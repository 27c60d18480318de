import type { Diagnostic } from '../diagnostic.ts';
import type { LibraryDocument } from '../library/shape.ts';

export type Detail = Partial<Pick<Diagnostic, 'severity' | 'expected' | 'received' | 'hint'>>;

/** One mistake at one place of a document. */
export const mistake = (
  { path, source }: LibraryDocument,
  pointer: string,
  code: string,
  message: string,
  detail: Detail = {},
): Diagnostic => ({
  code,
  severity: 'error',
  path,
  pointer,
  range: source.locate(pointer),
  message,
  ...detail,
});

/** Why an amendment is refused: it stands as a whole or not at all. */
export class Refusals {
  readonly found: Diagnostic[] = [];
  readonly #document: LibraryDocument;

  constructor(document: LibraryDocument) {
    this.#document = document;
  }

  add(pointer: string, code: string, message: string, detail?: Detail): void {
    this.found.push(mistake(this.#document, pointer, code, message, detail));
  }
}
