import { adoptedWords, byStatus } from '../../assessment/header.ts';
import { cautions } from '../../cautions.ts';
import { listed } from '../../words.ts';
import { html, type Piece } from '../markup.ts';
import { cautionItems, page, unbroken } from '../page.ts';
import { choicesChapter } from './choices.ts';
import type { Chapter } from './entry.ts';
import { evidenceChapter, memoryChapter } from './evidence.ts';
import { codesChapter, factsChapter } from './facts.ts';
import { type Gathered, gathered, type HandbookShown } from './gathered.ts';
import { hazardsChapter, sourcesChapter } from './hazards.ts';
import { type Links, linksOf } from './links.ts';
import { localChapter } from './local.ts';
import { setChapter, standingWords } from './set.ts';
import { tablesChapter } from './tables.ts';

const TITLE = 'Handbook of the rules';

function head(all: Gathered): Piece {
  const { releases, adoption } = all;
  const organisation =
    adoption?.organisation ?? releases.find(({ amendment }) => amendment)?.amendment?.organisation;
  const sets = releases.map((set) => ({ set, status: standingWords(set, all) }));
  const states = byStatus(sets).map(
    ([status, own]) =>
      html`<p class="aside">Rules ${status}: ${listed(
        own.map(({ set: { id, version } }) => `${id} ${version}`),
        'and',
      )}</p>\n`,
  );
  return html`<header class="row">
<p class="label">${organisation ?? 'As published'}</p>
<div class="entry"><h1>${TITLE}</h1>
<div class="first">${cautionItems(cautions)}</div>
<p class="aside">${unbroken(adoptedWords(adoption))}</p>
${states}</div>
</header>
`;
}

function contents(
  all: Gathered,
  links: Links,
  sets: readonly Chapter[],
  chapters: readonly Chapter[],
): Piece {
  const title = ({ id, title: said }: Chapter) =>
    html`<li class="chapter-title"><a href="#${id}">${said}</a></li>\n`;
  const rules = (index: number) => {
    const set = all.releases[index];
    return set?.rules.map(({ id, title: said }) => html`<li>${links.to('rule', [set.id, id], said)}</li>\n`);
  };
  return html`<nav class="row" aria-labelledby="contents">
<h2 id="contents">Contents</h2>
<div class="entry contents">${sets.map((set, index) => html`<ul>\n${title(set)}${rules(index)}</ul>\n`)}
<ul>
${chapters.map(title)}</ul></div>
</nav>
`;
}

/** The whole policy as one page to read, search and print. Needs no case, and holds none. */
export function handbookHtml(shown: HandbookShown): string {
  const all = gathered(shown);
  const links = linksOf(all);
  const sets = all.releases.map((set) => setChapter(set, all, links));
  const chapters = [
    localChapter,
    choicesChapter,
    tablesChapter,
    evidenceChapter,
    memoryChapter,
    hazardsChapter,
    sourcesChapter,
    factsChapter,
    codesChapter,
  ].flatMap((chapterOf) => chapterOf(all, links) ?? []);
  return page({
    title: all.adoption ? `${TITLE}, ${all.adoption.organisation}` : TITLE,
    language: all.releases[0]?.language ?? 'en',
    cautions,
    footer: TITLE,
    main: [
      head(all),
      contents(all, links, sets, chapters),
      [...sets, ...chapters].map(({ markup }) => markup),
    ],
  });
}
