import { html, joined, type Piece, trusted } from './markup.ts';
import { COLOURS } from './style/colours.ts';
import { LEDGER } from './style/ledger.ts';
import { PARTS } from './style/parts.ts';
import { PRINT, printedFooter } from './style/print.ts';

export interface Page {
  readonly title: string;
  readonly language: string;
  readonly cautions: readonly string[];
  /** How the sheet is named in the footer of a print. */
  readonly footer: string;
  readonly main: Piece;
}

/** Nothing may be loaded and nothing may run, whatever the page holds. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

export const cautionItems = (cautions: readonly string[]): Piece =>
  cautions.map((caution) => html`<p>${caution}</p>`);

/** One self-contained sheet: no script, nothing loaded from elsewhere. */
export function page({ title, language, cautions, footer, main }: Page): string {
  const style = trusted([COLOURS, LEDGER, PARTS, PRINT, printedFooter(cautions, footer)].join(''));
  return html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${style}</style>
</head>
<body>
<main>
${main}
</main>
<footer class="cautions">${cautionItems(cautions)}</footer>
</body>
</html>
`.source;
}

/** A part of the sheet: its heading in the margin, what belongs to it beside. */
export const section = (id: string, heading: Piece, content: Piece, className?: string) =>
  html`<section class="row${className !== undefined && ` ${className}`}" aria-labelledby="${id}">
<h2 id="${id}">${heading}</h2>
<div class="entry">${content}</div>
</section>
`;

/** Parts between dots are broken last; a dot stays with what it follows. */
export const unbroken = (text: string): Piece => {
  const parts = text.split(' · ');
  return joined(
    parts.map((part, index) => html`<span class="whole">${part}${index < parts.length - 1 && ' ·'}</span>`),
    ' ',
  );
};

/** Labelled lines; a part that says nothing is left out. */
export const lines = (parts: readonly (readonly [label: Piece, said: Piece])[]): Piece => {
  const said = parts.filter(([, text]) => text !== undefined && text !== false && text !== '');
  if (said.length === 0) return undefined;
  return html`<dl>
${said.map(([label, text]) => html`<div><dt>${label}</dt><dd>${text}</dd></div>\n`)}</dl>
`;
};

/** Nothing, one text as it is, or several as a list. */
export function texts(said: readonly Piece[], ordered = false): Piece {
  if (said.length < 2) return said[0];
  const items = said.map((text) => html`<li>${text}</li>`);
  return ordered ? html`<ol>${items}</ol>` : html`<ul class="plain">${items}</ul>`;
}
