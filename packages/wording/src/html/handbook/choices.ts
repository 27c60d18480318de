import type { CautiousSide, Constant, Parameter, Position } from '@dwellset/core';
import { changeWords } from '../../assessment/local.ts';
import { amountWords, numberWords } from '../../values/units.ts';
import { valueWords } from '../../values/value.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { type Chapter, chapter, entry } from './entry.ts';
import type { Gathered } from './gathered.ts';
import { inLine, type Links, userLinks } from './links.ts';

const CAUTIOUS: Readonly<Record<CautiousSide, string>> = {
  lower: 'the lower value',
  higher: 'the higher value',
  neither: 'neither side',
};

export const cautiousWords = (side: CautiousSide): string => CAUTIOUS[side];

export const rangeWords = (
  [low, high]: readonly [number, number],
  measured: Parameters<typeof amountWords>[1],
): string => `${numberWords(low, measured)} to ${amountWords(high, measured)}`;

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Each published value with what stands behind it. */
export function positionList(
  positions: readonly Position[],
  said: (value: Constant) => string,
  inForce: unknown,
  links: Links,
): Piece {
  return texts(
    positions.map(({ value, evidence, note }) => {
      const behind = inLine(
        evidence.map((id) => links.to('evidence', [id], id)),
        ', ',
      );
      const mark = same(value, inForce) && html` <b>in force</b>`;
      return html`${upperFirst(said(value))}${mark} <span class="id">${behind}</span>${note !== undefined && html`<div class="aside">${note}</div>`}`;
    }),
  );
}

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
  const outside = !positions.some((position) => same(position.value, value));
  const long = Array.isArray(value);
  const content = html`<h3>${upperFirst(parameter.title)}</h3>
${lines([
  [
    'In force',
    long ? texts(value.map((code) => valueWords(code, parameter, words))) : html`<b>${said(value)}</b>`,
  ],
  ['As published', same(value, parameter.default) ? 'the same' : said(parameter.default)],
  ['Range', range && rangeWords(range, parameter)],
  ['Cautious side', upperFirst(cautiousWords(cautious))],
  ['Positions', positionList(positions, said, value, links)],
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
