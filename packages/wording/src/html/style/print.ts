/**
 * On paper: black on white, folded as on the screen, no line of a list torn apart. A heading in the margin has its
 * text beside it, not below: to hold it to what follows would push whole parts to the next page.
 */
export const PRINT = `
@media print {
  :root { --paper: #fff; --ink: #000; --soft: #333; --rule: #999; --accent: #000; }
  html { font-size: 10pt; }
  main { max-width: none; padding: 0; --margin: 30mm; --gap: 10mm; }
  main::before { left: calc(var(--margin) + var(--gap) / 2 - 2px); }
  .row { grid-template-columns: var(--margin) minmax(0, 1fr); }
  .row > h2 { border: 0; }
  a { color: inherit; text-decoration: none; }
  h1, h3, h4, caption, summary, thead { break-after: avoid; }
  .chapter { break-before: page; margin: 0; }
  li, tr, dl > div { break-inside: avoid; }
  p, dd, li { orphans: 3; widows: 3; }
  summary { list-style: none; }
  details.rule > summary::after, details.rules > summary::after { content: none; }
  .screen { display: none; }
}
`;

/** A character by its code; the space behind it ends the code and is not printed. */
const coded = (one: string): string => `\\${one.codePointAt(0)?.toString(16)} `;

/** A text as a CSS string: whatever is no plain letter or digit is written as its code. */
const cssString = (text: string): string =>
  `'${[...text].map((one) => (/[A-Za-z0-9 ,.]/.test(one) ? one : coded(one))).join('')}'`;

/** The cautions at the foot of every printed page, with the name of the sheet and the count of pages. */
export const printedFooter = (cautions: readonly string[], name: string): string => `
@page {
  size: A4;
  margin: 18mm 16mm 26mm 18mm;
  @bottom-left {
    content: ${cssString(cautions.join(' '))};
    width: 124mm;
    font: 7.5pt/1.35 'Liberation Sans', Arial, sans-serif;
    vertical-align: top;
    padding-top: 3mm;
    text-align: left;
  }
  @bottom-right {
    content: ${cssString(name)} '\\a ' counter(page) ' / ' counter(pages);
    white-space: pre-line;
    font: 7.5pt/1.35 'Liberation Sans', Arial, sans-serif;
    vertical-align: top;
    padding-top: 3mm;
    text-align: right;
  }
}
`;
