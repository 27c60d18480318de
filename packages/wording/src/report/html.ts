import { cautions } from '../cautions.ts';
import { chapter, entry } from '../html/handbook/entry.ts';
import { outcomeMark } from '../html/marks.ts';
import { html, type Piece } from '../html/markup.ts';
import { cautionItems, page, unbroken } from '../html/page.ts';
import { counted } from '../words.ts';
import { reportContent } from './content.ts';
import type { ReportEntry, ReportPart, ReportShown, State } from './shown.ts';

/** As in a checklist: filled is met, open is not, dotted nobody has looked, struck is set aside with a reason. */
const MARKS: Readonly<Record<State, Parameters<typeof outcomeMark>[0]>> = {
  passed: { outcome: 'does-not-apply', check: 'met' },
  refused: { outcome: 'applies', check: 'not-met' },
  'not-run': { outcome: 'undetermined', check: 'not-recorded' },
  accepted: { outcome: 'switched-off', check: 'switched-off' },
};

const LEGEND: readonly (readonly [State, string])[] = [
  ['passed', 'passed'],
  ['refused', 'refused or failed'],
  ['accepted', 'accepted with a reason'],
  ['not-run', 'not run'],
];

const legend: Piece = html`<p class="legend aside">${LEGEND.map(([state, words]) => html`<span>${outcomeMark(MARKS[state])}${words}</span>`)}</p>`;

function entryMarkup({ label, title, state, lines }: ReportEntry, id: string): Piece {
  const heading =
    title !== undefined && html`<h3>${state !== undefined && outcomeMark(MARKS[state])}${title}</h3>`;
  return entry(
    id,
    label,
    html`${heading}${lines.filter((line) => line !== '').map((line) => html`<p>${line}</p>\n`)}`,
  );
}

const partChapter = ({ id, title, opening, entries }: ReportPart) =>
  chapter(
    id,
    title,
    entries.length === 0 ? 'none' : counted(entries.length, 'entry', 'entries'),
    html`<p>${opening}</p>${id === 'results' && legend}`,
    entries.map((one, at) => entryMarkup(one, `${id}-${at + 1}`)),
  );

/** A report as one page for a committee, to be read and printed; nothing is loaded and nothing runs. */
export function reportHtml(shown: ReportShown): string {
  const { title, language, about, parts } = reportContent(shown);
  const contents = parts.map(({ id, title: said }) => html`<li><a href="#${id}">${said}</a></li>\n`);
  const head = html`<header class="row">
<p class="label">${shown.adoption?.organisation ?? 'As published'}</p>
<div class="entry"><h1>${title}</h1>
<div class="first">${cautionItems(cautions)}</div>
${about.map((line) => html`<p class="aside">${unbroken(line)}</p>\n`)}</div>
</header>
<nav class="row" aria-labelledby="contents">
<h2 id="contents">Contents</h2>
<div class="entry contents"><ul>
${contents}</ul></div>
</nav>
`;
  return page({
    title,
    language,
    cautions,
    footer: title,
    main: [head, parts.map((part) => partChapter(part).markup)],
  });
}
