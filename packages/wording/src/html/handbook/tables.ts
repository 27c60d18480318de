import type { CellValue, Table, TableCell, TableColumn } from '@dwellset/core';
import { cautiousWords, rangeWords, sameValue } from '../../choices/allowed.ts';
import { codeWords, valueWords } from '../../values/value.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { behind, localChanges } from './choices.ts';
import { type Chapter, chapter, entry } from './entry.ts';
import type { Gathered } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

const NO_ENTRY = 'no entry';

const cellWords = (value: CellValue | undefined, column: TableColumn, { words }: Gathered): string =>
  value === null || value === undefined ? NO_ENTRY : valueWords(value, column, words);

/** The value of one cell, what it may be, and what stands behind it and behind each published position. */
function cell(found: TableCell | undefined, column: TableColumn, all: Gathered, links: Links): Markup {
  const { value, range, positions = [], evidence = [] } = found ?? { value: null };
  const said = (one: CellValue) => cellWords(one, column, all);
  const published = positions.map(
    (position) =>
      html`${upperFirst(said(position.value as CellValue))}${
        sameValue(position.value, value) && html` <b>in force</b>`
      } <span class="id">${behind(position.evidence, all, links)}</span>`,
  );
  return html`<td><b>${said(value)}</b>${range && html` <span class="id">may be ${rangeWords(range, column)}</span>`}${
    evidence.length > 0 && html` <span class="id">${behind(evidence, all, links)}</span>`
  }${published.length > 0 && html`<div class="aside">${texts(published)}</div>`}</td>`;
}

function tableEntry(table: Table, all: Gathered, links: Links): Markup {
  const columns = Object.entries(table.columns);
  const row = ([code, cells]: readonly [string, Readonly<Record<string, TableCell>>]) =>
    html`<tr><th scope="row">${upperFirst(codeWords(code, table.key, all.words))}</th>${columns.map(([name, column]) => cell(cells[name], column, all, links))}</tr>
`;
  const sides = columns.flatMap(([name, { cautious }]) =>
    cautious === undefined ? [] : [`${name}: ${cautiousWords(cautious)}`],
  );
  const otherwise =
    table.otherwise &&
    columns.map(([name, column]) => `${name}: ${cellWords(table.otherwise?.[name], column, all)}`).join('; ');
  const content = html`<h3>${upperFirst(table.title)}</h3>
<table aria-label="${upperFirst(table.title)}">
<thead><tr><th scope="col">${links.to('codes', [table.key], 'For')}</th>${columns.map(([name]) => html`<th scope="col">${upperFirst(name)}</th>`)}</tr></thead>
<tbody>
${Object.entries(table.rows).map(row)}</tbody>
</table>
${lines([
  ['Any other', otherwise],
  ['Cautious side', sides.join('; ')],
  ['Changed here', localChanges(table.id, all)],
  [
    'Used by',
    inLine(
      userLinks(
        all.users.filter(({ uses }) => uses.tables.has(table.id)),
        links,
      ),
    ),
  ],
  ['Remark', table.note],
])}`;
  return entry(anchor('table', table.id), table.id, content);
}

export function tablesChapter(all: Gathered, links: Links): Chapter | undefined {
  const tables = [...all.words.tables.values()];
  if (tables.length === 0) return undefined;
  return chapter(
    'tables',
    'Tables',
    counted(tables.length, 'table'),
    html`<p>Local choices that differ from item to item. A label that gives a figure of its own goes before them.</p>`,
    tables.map((table) => tableEntry(table, all, links)),
  );
}
