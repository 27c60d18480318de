import type { AmendmentRecord } from '@dwellset/core';
import { changeWords } from '../../assessment/local.ts';
import { upperFirst } from '../../words.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { type Chapter, chapter } from './entry.ts';
import type { Gathered } from './gathered.ts';
import type { Links } from './links.ts';

type Change = AmendmentRecord['changes'][number];

/** What was changed, linked to where it stands. */
function item({ item: name }: Change, set: string, { words }: Gathered, links: Links): Piece {
  const [id = ''] = name.split('/');
  if (words.parameters.has(id)) return links.to('choice', [id], name);
  if (words.tables.has(id)) return links.to('table', [id], name);
  return links.to('rule', [set, name], words.rules.get(`${set}/${name}`) ?? name);
}

/** Everything that the hospital changed in the published rules, with who, when and why. */
export function localChapter(all: Gathered, links: Links): Chapter | undefined {
  const amended = all.releases.filter(({ amendment }) => amendment !== undefined);
  const [first] = amended;
  const record = first?.amendment;
  if (!record) return undefined;
  const seen = new Set<string>();
  const row = (change: Change, set: string): Markup | undefined => {
    const said = upperFirst(changeWords(change, all));
    const key = `${change.item} ${said}`;
    // A choice counts in every set that uses it and is recorded in each: said once.
    if (all.words.parameters.has(change.item) && seen.has(key)) return undefined;
    seen.add(key);
    return html`<div class="row line"><div class="label">${item(change, set, all, links)}</div>
<div class="entry"><p>${said}</p></div></div>
`;
  };
  return chapter(
    'local',
    'Changed here',
    `${record.id} ${record.version}`,
    html`<p>By ${record.organisation}, ${record.approverRole}, ${record.date}. The rules as published stay as they are; these changes stand on top of them.</p>`,
    amended.flatMap(({ id, amendment }) => (amendment?.changes ?? []).map((change) => row(change, id))),
  );
}
