import type { Constant, Parameter } from '@dwellset/core';
import { changeWords } from '../../assessment/local.ts';
import { allowedWords, cautiousWords, rangeWords, sameValue } from '../../choices/allowed.ts';
import { positionsSaid } from '../../choices/positions.ts';
import { statusWords } from '../../status.ts';
import { valueWords } from '../../values/value.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { type Chapter, chapter, entry } from './entry.ts';
import { type Gathered, weakest } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

/** Statements behind a value, by their ids; what rests on memory says so. */
export const behind = (evidence: readonly string[], all: Gathered, links: Links): Piece =>
  inLine(
    evidence.map((id) => {
      const found = all.evidence.find((one) => one.id === id);
      const memory = found && weakest(found) === 'memory' && ` (${statusWords('memory')})`;
      return html`${links.to('evidence', [id], id)}${memory}`;
    }),
    ', ',
  );

/** Each published value, whether it is in force or open to a hospital, and what stands behind it. */
const positionList = (parameter: Parameter, all: Gathered, links: Links): Piece =>
  texts(
    positionsSaid(parameter, all.words, all.locked.get(parameter.id)).map(
      ({ value, standing, evidence, note }) =>
        html`${upperFirst(value)} <b>${standing}</b> <span class="id">${behind(evidence, all, links)}</span>${
          note !== undefined && html`<div class="aside">${note}</div>`
        }`,
    ),
  );

/** What a hospital changed in one choice; said once however many sets use it. */
export const localChanges = (item: string, { releases, words }: Gathered): Piece =>
  texts([
    ...new Set(
      releases
        .flatMap(({ amendment }) => amendment?.changes ?? [])
        .filter((change) => change.item === item || change.item.startsWith(`${item}/`))
        .map((change) => upperFirst(changeWords(change, { words }))),
    ),
  ]);

function parameterEntry(parameter: Parameter, all: Gathered, links: Links): Markup {
  const { id, value, range, positions, cautious, note } = parameter;
  const { words } = all;
  const said = (one: Constant) => valueWords(one, parameter, words);
  const outside = !positions.some((position) => sameValue(position.value, value));
  const long = Array.isArray(value);
  const content = html`<h3>${upperFirst(parameter.title)}</h3>
${lines([
  [
    'In force',
    long ? texts(value.map((code) => valueWords(code, parameter, words))) : html`<b>${said(value)}</b>`,
  ],
  ['As published', sameValue(value, parameter.default) ? 'the same' : said(parameter.default)],
  ['Range', range && rangeWords(range, parameter)],
  ['Cautious side', upperFirst(cautiousWords(cautious))],
  ['Positions', positionList(parameter, all, links)],
  ['May be', texts(allowedWords(parameter, words, all.locked.get(id)))],
  [
    'Mind',
    [
      parameter.local
        ? 'No source gives a figure: the value is local from the start.'
        : outside && 'The value in force is none of the published positions.',
    ].find(Boolean),
  ],
  ['Changed here', localChanges(id, all)],
  [
    'Used by',
    inLine(
      userLinks(
        all.users.filter(({ uses }) => uses.parameters.has(id)),
        links,
      ),
    ),
  ],
  ['Remark', note],
])}`;
  return entry(anchor('choice', id), id, content);
}

export const choicesChapter = (all: Gathered, links: Links): Chapter | undefined =>
  all.parameters.length === 0
    ? undefined
    : chapter(
        'choices',
        'Local choices',
        counted(all.parameters.length, 'choice'),
        html`<p>Values that a hospital sets for itself. Each stands for every rule set that uses it.</p>`,
        all.parameters.map((parameter) => parameterEntry(parameter, all, links)),
      );
