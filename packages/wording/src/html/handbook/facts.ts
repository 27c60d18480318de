import type { Fact } from '@dwellset/core';
import { kindWords } from '../../listings/facts.ts';
import { derivationWords } from '../../values/derivation.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup } from '../markup.ts';
import { lines } from '../page.ts';
import { between, type Chapter, chapter, entry } from './entry.ts';
import type { Gathered } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

function factEntry(fact: Fact, all: Gathered, links: Links): Markup {
  const { id, title, question, codes, from, note, phrases, item } = fact;
  const users = all.users.filter(({ uses }) => uses.facts.has(id));
  const fields = Object.values(item ?? {}).map((field) => field.title);
  const content = html`<h4>${upperFirst(title)}</h4>
<p class="statement-of">${question}</p>
<p class="aside">${kindWords(fact)}${codes !== undefined && [' · ', links.to('codes', [codes], codes)]}</p>
${lines([
  ['Computed', from && upperFirst(derivationWords(fact, from, all.words))],
  ['Each entry', fields.join(', ')],
  ['Said as', phrases && `${phrases.true} · ${phrases.false}`],
  ['Read by', inLine(userLinks(users, links))],
  ['Remark', note],
])}`;
  return entry(anchor('fact', id), id, content);
}

const groupOf = ({ id }: Fact): string => id.split('.')[0] ?? '';

/** The dictionary: every fact that a rule reads, with the question that a nurse is asked. */
export function factsChapter(all: Gathered, links: Links): Chapter {
  const groups = [...new Set(all.facts.map(groupOf))];
  return chapter(
    'facts',
    'Facts and their questions',
    counted(all.facts.length, 'fact'),
    html`<p>What the rules read. Whatever is not supplied stays unknown: it is never taken as a yes or a no.</p>`,
    groups.map((group) => [
      between(all.groups?.get(group) ?? group),
      all.facts.filter((fact) => groupOf(fact) === group).map((fact) => factEntry(fact, all, links)),
    ]),
  );
}

export function codesChapter(all: Gathered): Chapter | undefined {
  const lists = Object.entries(all.words.codes).sort(([a], [b]) => (a < b ? -1 : 1));
  if (lists.length === 0) return undefined;
  const row = ([code, said]: readonly [string, string]) =>
    html`<div><dt>${code}</dt><dd>${said}</dd></div>\n`;
  return chapter(
    'codes',
    'Lists of codes',
    counted(lists.length, 'list'),
    undefined,
    lists.map(([name, list]) =>
      entry(anchor('codes', name), name, html`<dl>${Object.entries(list).map(row)}</dl>`),
    ),
  );
}
