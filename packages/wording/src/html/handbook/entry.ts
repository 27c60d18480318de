import { html, type Markup, type Piece } from '../markup.ts';

export interface Chapter {
  readonly id: string;
  readonly title: string;
  readonly markup: Markup;
}

/** A chapter: what it is in the margin, its title and what opens it beside, then its entries. */
export const chapter = (
  id: string,
  title: string,
  margin: Piece,
  opening: Piece,
  entries: Piece,
): Chapter => ({
  id,
  title,
  markup: html`
<section class="chapter" aria-labelledby="${id}">
<div class="row opening"><p class="label">${margin}</p>
<div class="entry"><h2 id="${id}">${title}</h2>
${opening}</div></div>
${entries}</section>
`,
});

/** One entry of a chapter, its id or value in the margin. */
export const entry = (
  id: string,
  margin: Piece,
  content: Piece,
): Markup => html`<article class="row line" id="${id}">
<div class="label">${margin}</div>
<div class="entry">${content}</div>
</article>
`;

/** A heading between entries. */
export const between = (title: string): Markup => html`<div class="row line between"><div></div>
<div class="entry"><h3>${title}</h3></div></div>
`;
