import type { Hazard, Risk, Source } from '@dwellset/core';
import { counted } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { type Chapter, chapter, entry } from './entry.ts';
import type { Gathered } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

const riskWords = ({ severity, likelihood, risk }: Risk): string =>
  `severity ${severity.toLowerCase()}, likelihood ${likelihood.toLowerCase()}: risk ${risk} of 5`;

/** Vignettes that fail when the rule is switched off. */
const controls = (hazard: Hazard, { controls: known }: Gathered, links: Links): Piece =>
  texts(
    hazard.controls.map((name) => {
      const found = known?.get(name);
      const [set = ''] = name.split('/');
      if (!found) return name;
      return html`${links.to('rule', [set, found.rule], found.title)} <span class="id">${name}</span>`;
    }),
  );

function hazardEntry(hazard: Hazard, all: Gathered, links: Links): Markup {
  const { id, title, description, causes, effect, harm, initial, residual, owner, status, note } = hazard;
  const rules = all.users.filter(({ rule }) => rule?.hazards?.includes(id));
  const content = html`<h3>${title}</h3>
<p>${description}</p>
${lines([
  ['Causes', texts(causes)],
  ['Effect', effect],
  ['Harm', harm],
  ['Rules', inLine(userLinks(rules, links))],
  ['Controls', controls(hazard, all, links)],
  ['Without controls', riskWords(initial)],
  ['With controls', riskWords(residual)],
  ['Owner', `${owner} · ${status}`],
  ['Remark', note],
])}`;
  return entry(anchor('hazard', id), id, content);
}

export const hazardsChapter = (all: Gathered, links: Links): Chapter | undefined =>
  all.hazards.length === 0
    ? undefined
    : chapter(
        'hazards',
        'Hazards',
        counted(all.hazards.length, 'hazard'),
        html`<p>What can go wrong, and the vignettes that fail when the rule against it is switched off.</p>`,
        all.hazards.map((hazard) => hazardEntry(hazard, all, links)),
      );

function sourceEntry(source: Source, all: Gathered, links: Links): Markup {
  const { id, kind, body, title, year, edition, note } = source;
  const used = all.evidence.filter(({ from }) => from.some((item) => item.source === id));
  const content = html`<p class="statement-of">${body}: ${title}</p>
<p class="aside">${[kind.replaceAll('-', ' '), ...(year === undefined ? [] : [year]), ...(edition === undefined ? [] : [edition])].join(' · ')}</p>
${lines([
  [
    'Evidence',
    inLine(
      used.map((one) => links.to('evidence', [one.id], one.id)),
      ', ',
    ),
  ],
  ['Remark', note],
])}`;
  return entry(anchor('source', id), id, content);
}

export const sourcesChapter = (all: Gathered, links: Links): Chapter | undefined =>
  all.sources.length === 0
    ? undefined
    : chapter(
        'sources',
        'Sources',
        counted(all.sources.length, 'source'),
        html`<p>The works that the evidence rests on.</p>`,
        all.sources.map((source) => sourceEntry(source, all, links)),
      );
