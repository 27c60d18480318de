/** Lists, labelled lines, tables, shapes and what unfolds. */
export const PARTS = `
ol, ul { margin: 0.5rem 0; padding-left: 1.4rem; }
ul.plain, ol.plain, ul.tree, ul.tree ul { list-style: none; padding: 0; margin: 0; }
ul.plain > li + li { margin-top: 0.3rem; }
.items > li, .items > article { padding: 1.1rem 0; border-top: 1px solid var(--rule); }
.items > :first-child { border-top: 0; padding-top: 0; }
.items > :last-child { padding-bottom: 0; }
.summary { font-size: 1.2rem; line-height: 1.4; margin: 0; text-wrap: pretty; }
.now .summary { font-size: 1.5rem; line-height: 1.3; font-weight: 600; }
.quiet .summary { font-size: 1.0625rem; }
dl { margin: 0.6rem 0 0; }
dl > div { display: grid; grid-template-columns: 7.5rem minmax(0, 1fr); column-gap: 1.25rem; padding: 0.2rem 0; }
dt { font-size: 0.8125rem; line-height: 1.35; padding-top: 0.25rem; color: var(--soft); }
dd { margin: 0; max-width: 42rem; }
dd ol, dd ul { margin: 0; }
table { border-collapse: collapse; width: 100%; font-size: 0.9375rem; line-height: 1.45; margin: 0.75rem 0; }
caption { text-align: left; padding: 0.75rem 0 0.4rem; font-size: 1rem; font-weight: 600; }
caption .id { font-weight: 400; }
th, td { text-align: left; vertical-align: baseline; padding: 0.4rem 1rem 0.4rem 0; border-top: 1px solid var(--rule); }
thead th { border-top: 0; font-weight: 400; font-size: 0.8125rem; color: var(--soft); }
tbody th { font-weight: 400; }
th:last-child, td:last-child { padding-right: 0; }
.figure { text-align: right; width: 3.2rem; white-space: nowrap; }
.state { width: 42%; }
.out { color: var(--soft); }
.mark { width: 0.8em; height: 0.8em; margin-right: 0.55em; vertical-align: -0.04em; flex: none; overflow: visible; }
.mark * { fill: none; stroke: currentColor; stroke-width: 1.5; }
.mark .filled { fill: currentColor; }
.mark .dotted { stroke-dasharray: 0.1 3.2; stroke-width: 2; stroke-linecap: round; }
.mark path { stroke-width: 2; stroke-linecap: round; }
.marked { display: flex; align-items: baseline; }
.marked > :nth-child(2) { flex: 1; }
.legend { display: flex; flex-wrap: wrap; gap: 0.25rem 1.5rem; }
summary { cursor: pointer; font-size: 0.9375rem; line-height: 1.5; }
summary:hover { color: var(--accent); }
dd details, .group > details { margin-top: 0.3rem; }
details > ul { padding-top: 0.4rem; }
ul.positions > li { padding: 0.35rem 0; }
ul.positions > li:first-child { padding-top: 0; }
ul.positions p { margin: 0; }
ul.positions b { font: 400 0.8125rem 'Avenir Next', Avenir, 'Segoe UI', 'Noto Sans', 'Liberation Sans', system-ui, sans-serif; color: var(--soft); }
details.more { margin-top: 1.1rem; border-top: 1px solid var(--rule); padding-top: 0.75rem; }
details.more > .items { padding-top: 1.1rem; }
li .aside { margin-top: 0.15rem; }
details.rule, details.rules { border-top: 1px solid var(--rule); }
:is(details.rule, details.rules) > summary { list-style: none; display: flex; align-items: baseline; padding: 0.5rem 0; }
:is(details.rule, details.rules) > summary::-webkit-details-marker { display: none; }
:is(details.rule, details.rules) > summary .title { flex: 1; padding-right: 1rem; }
:is(details.rule, details.rules) > summary .ended { color: var(--soft); text-align: right; max-width: 55%; }
:is(details.rule, details.rules) > summary::after { content: '+' / ''; width: 1.5rem; text-align: right; color: var(--accent); }
:is(details.rule, details.rules)[open] > summary::after { content: '–' / ''; }
details.rule[open] > summary .title { font-weight: 600; }
details.rules > details.rule { margin-left: 1.35rem; }
.statement { padding: 0.25rem 0 1.25rem 1.35rem; }
.statement > .id { margin-top: 0; }
.statement h4 { font-size: 0.8125rem; font-weight: 400; color: var(--soft); margin: 0.9rem 0 0.2rem;
  font-family: 'Avenir Next', Avenir, 'Segoe UI', 'Noto Sans', 'Liberation Sans', system-ui, sans-serif; }
ul.tree li { display: grid; grid-template-columns: 5.4rem minmax(0, 1fr); align-items: baseline; padding: 0.15rem 0; }
ul.tree ul { grid-column: 1 / -1; padding-left: 1.35rem; }
ul.tree .truth { font-size: 0.8125rem; color: var(--soft);
  font-family: 'Avenir Next', Avenir, 'Segoe UI', 'Noto Sans', 'Liberation Sans', system-ui, sans-serif; }
ul.tree .said { color: var(--soft); }
ul.tree .decides { color: var(--ink); }
.group { padding-bottom: 0.75rem; }
.group + .group { margin-top: 2rem; }
.statement-of { margin-top: 0; }
.first { font-size: 1.2rem; line-height: 1.45; margin: 1rem 0 1.25rem; }
.first p { margin: 0.15rem 0; }
b { font-weight: 600; }
.line .summary { margin: 0.4rem 0; }
.contents { columns: 18rem 2; column-gap: 3rem; }
.contents ul { list-style: none; padding: 0; margin: 0 0 1.25rem; break-inside: auto; }
.contents li { padding: 0.1rem 0; font-size: 0.9375rem; break-inside: avoid; }
.contents a { text-decoration: none; }
.contents a:hover { text-decoration: underline; }
.contents .chapter-title { font-weight: 600; }
@media (max-width: 46rem) {
  dl > div { grid-template-columns: minmax(0, 1fr); padding: 0.3rem 0; }
  dt { padding-top: 0; }
  :is(details.rule, details.rules) > summary { flex-wrap: wrap; }
  :is(details.rule, details.rules) > summary .title { flex: 1 0 80%; padding-right: 0; }
  :is(details.rule, details.rules) > summary .ended { flex: 1 0 80%; max-width: none; text-align: left; padding-left: 1.35rem; }
  th, td { padding-right: 0.6rem; }
  .figure { width: 2.2rem; }
  ul.tree li { grid-template-columns: minmax(0, 1fr); padding: 0.3rem 0; }
  ul.tree ul { padding-left: 0.9rem; }
  .statement { padding-left: 0.6rem; }
}
`;
