/** The sheet: a margin for headings and labels, a double rule, and the column that is read. */
export const LEDGER = `
* { box-sizing: border-box; }
html {
  background: var(--paper);
  color: var(--ink);
  font: 400 1.0625rem/1.55 'Iowan Old Style', 'Palatino Linotype', Palatino, 'Source Serif 4', 'Noto Serif',
    'Liberation Serif', Georgia, serif;
  font-variant-numeric: lining-nums tabular-nums;
  overflow-wrap: anywhere;
  -webkit-text-size-adjust: 100%;
}
body { margin: 0; }
main {
  --margin: 9.5rem;
  --gap: 3rem;
  position: relative;
  max-width: 66rem;
  margin: 0 auto;
  padding: 3rem clamp(1rem, 4vw, 3rem) 4rem;
}
main::before {
  content: '';
  position: absolute;
  top: 0;
  bottom: 0;
  left: calc(clamp(1rem, 4vw, 3rem) + var(--margin) + var(--gap) / 2 - 2px);
  width: 4px;
  border: solid var(--accent);
  border-width: 0 1px;
  opacity: 0.45;
}
.row {
  display: grid;
  grid-template-columns: var(--margin) minmax(0, 1fr);
  column-gap: var(--gap);
}
.row + .row:not(.line) { margin-top: 3.25rem; }
.chapter { margin-top: 5rem; }
.chapter .opening { padding-bottom: 1.75rem; }
.chapter h2 { font-size: 1.9rem; letter-spacing: -0.005em; }
.row.line { border-top: 1px solid var(--rule); padding: 1.1rem 0 1.3rem; }
.row.between { padding-top: 2.5rem; border-top: 0; padding-bottom: 0.75rem; }
.between h3 { font-size: 1.35rem; font-style: italic; font-weight: 400; }
.row.line .label { line-height: 1.5rem; padding-top: 0.1rem; }
.entry > :first-child { margin-top: 0; }
.entry > :last-child { margin-bottom: 0; }
h1, h2, h3, h4 { font-weight: 600; line-height: 1.25; margin: 0; text-wrap: balance; }
h1 { font-size: 2.4rem; letter-spacing: -0.01em; }
h2 { font-size: 1.35rem; padding-top: 0.1rem; }
h3 { font-size: 1.2rem; }
p { margin: 0.5rem 0; max-width: 46rem; text-wrap: pretty; }
a {
  color: var(--accent);
  text-decoration-color: color-mix(in srgb, var(--accent) 40%, transparent);
  text-decoration-thickness: 1px;
  text-underline-offset: 0.2em;
}
a:hover { text-decoration-color: currentColor; }
a:focus-visible, summary:focus-visible { outline: 2px solid var(--accent); outline-offset: 3px; }
:target { scroll-margin-top: 1rem; }
small, dt, .aside, .label, .id, table, summary, .cautions, .contents {
  font-family: 'Avenir Next', Avenir, 'Segoe UI', 'Noto Sans', 'Liberation Sans', system-ui, sans-serif;
}
small, .aside, .label { font-size: 0.875rem; color: var(--soft); }
.aside { line-height: 1.5; }
.label { font-weight: 400; }
.whole { display: inline-block; }
.id { color: var(--soft); font-size: 0.8125rem; }
.cautions {
  border-top: 3px double var(--rule);
  background: var(--paper);
  padding: 0.6rem max(clamp(1rem, 4vw, 3rem), 50vw - 33rem + clamp(1rem, 4vw, 3rem));
  font-size: 0.8125rem;
  line-height: 1.45;
}
.cautions p { display: inline; margin: 0; max-width: none; }
.cautions p + p::before { content: ' '; }
@media (max-width: 46rem) {
  main { padding-top: 1.75rem; }
  main::before { display: none; }
  .row { grid-template-columns: minmax(0, 1fr); }
  .chapter { margin-top: 3.5rem; }
  .row > h2 { border-bottom: 1px solid var(--rule); padding-bottom: 0.3rem; margin-bottom: 1rem; }
  .row + .row:not(.line) { margin-top: 2.5rem; }
  h1 { font-size: 2rem; }
}
`;
