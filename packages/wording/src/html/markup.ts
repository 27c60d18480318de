import { clean } from '../layout.ts';

/**
 * A piece of HTML that may stand as it is. Only `html` and `trusted` make one, so that nothing read from JSON can
 * pass for markup.
 */
export class Markup {
  readonly source: string;
  constructor(source: string) {
    this.source = source;
  }
}

export type Piece = Markup | string | number | undefined | false | readonly Piece[];

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Control characters and marks that reverse the direction of writing go, the rest is made harmless. */
const escaped = (text: string): string =>
  clean(text).replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '');

function sourceOf(piece: Piece): string {
  if (piece === undefined || piece === false) return '';
  if (piece instanceof Markup) return piece.source;
  if (Array.isArray(piece)) return (piece as readonly Piece[]).map(sourceOf).join('');
  return escaped(String(piece));
}

/** Template for HTML: every value is escaped, in text and in quoted attributes alike, unless it is markup. */
export function html(strings: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  return new Markup(strings.map((text, index) => text + sourceOf(pieces[index])).join(''));
}

/** Text of our own that is no HTML text, such as a style sheet; never text from a case or a rule. */
export const trusted = (source: string): Markup => new Markup(source);

/** Pieces with something between them. */
export const joined = (pieces: readonly Piece[], between: Piece): Piece[] =>
  pieces.flatMap((piece, index) => (index === 0 ? [piece] : [between, piece]));
