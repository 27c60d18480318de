import type { Evidence, EvidenceItem, Source } from '@dwellset/core';
import { MEMORY_ONLY } from '../../assessment/advice.ts';
import { sourceWords, statusWords } from '../../status.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { type Chapter, chapter, entry } from './entry.ts';
import { type Gathered, restsOnMemory } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

function itemWords(item: EvidenceItem, sources: readonly Source[]): string {
  const source = sources.find(({ id }) => id === item.source);
  const { body = '', title = '', year, edition } = source ?? {};
  return sourceWords({
    ...item,
    body,
    title,
    ...(year === undefined ? {} : { year }),
    ...(edition === undefined ? {} : { edition }),
  });
}

const itemList = (items: readonly EvidenceItem[], all: Gathered, links: Links): Piece =>
  items.map(
    (item) =>
      html`<div class="aside">${itemWords(item, all.sources)} · ${links.to('source', [item.source], item.source)}</div>\n`,
  );

const rulesOn = (id: string, all: Gathered) => all.users.filter(({ rule }) => rule?.evidence.includes(id));

/** Local choices and cells of tables whose positions rest on it. */
function choicesOn(id: string, all: Gathered, links: Links): Piece[] {
  const parameters = all.parameters.filter(({ positions }) =>
    positions.some(({ evidence }) => evidence.includes(id)),
  );
  const tables = [...all.words.tables.values()].filter(({ rows }) =>
    Object.values(rows).some((row) =>
      Object.values(row).some(
        ({ evidence = [], positions = [] }) =>
          evidence.includes(id) || positions.some((position) => position.evidence.includes(id)),
      ),
    ),
  );
  return [
    ...parameters.map((parameter) => links.to('choice', [parameter.id], parameter.title)),
    ...tables.map((table) => links.to('table', [table.id], table.title)),
  ];
}

function evidenceEntry(evidence: Evidence, all: Gathered, links: Links): Markup {
  const { id, statement, from, derivedFrom = [], note } = evidence;
  const content = html`<p class="statement-of">${statement}</p>
${itemList(from, all, links)}${lines([
  [
    'Derived from',
    inLine(
      derivedFrom.map((one) => links.to('evidence', [one], one)),
      ', ',
    ),
  ],
  ['Rules', inLine(userLinks(rulesOn(id, all), links))],
  ['Local choices', inLine(choicesOn(id, all, links))],
  ['Remark', note],
])}`;
  return entry(anchor('evidence', id), id, content);
}

export const evidenceChapter = (all: Gathered, links: Links): Chapter | undefined =>
  all.evidence.length === 0
    ? undefined
    : chapter(
        'evidence',
        'Evidence',
        counted(all.evidence.length, 'statement'),
        html`<p>Statements in our own words, each with the place in its source, the source's own grade, and how it is known.</p>`,
        all.evidence.map((evidence) => evidenceEntry(evidence, all, links)),
      );

/** Everything that nobody has checked against its source, in one place. */
export function memoryChapter(all: Gathered, links: Links): Chapter {
  const found = all.evidence.filter(({ from }) => from.some(({ status }) => status === 'memory'));
  const alone = all.users.filter(({ rule }) => rule && restsOnMemory(rule, all.evidence));
  const entries = found.map(({ id, statement, from }) => {
    const items = from.filter(({ status }) => status === 'memory');
    const part =
      items.length < from.length &&
      html`<p class="aside">${counted(from.length - items.length, 'other source')} beside it.</p>`;
    return html`<article class="row line"><div class="label">${links.to('evidence', [id], id)}</div>
<div class="entry"><p class="statement-of">${statement}</p>
${itemList(items, all, links)}${part}</div></article>
`;
  });
  const opening = html`<p>${
    found.length === 0
      ? 'Nothing here rests on memory.'
      : 'Statements with at least one source that was quoted from memory and never looked up. Check them first.'
  }</p>
${lines([[upperFirst(MEMORY_ONLY), texts(userLinks(alone, links))]])}`;
  return chapter(
    'memory',
    upperFirst(statusWords('memory')),
    counted(found.length, 'statement'),
    opening,
    entries,
  );
}
