import type { Advice, EvidenceShown } from '@dwellset/core';
import { moreEvidenceWords } from '../../assessment/advice.ts';
import { type Content, ruleOf } from '../../assessment/context.ts';
import { endedWords } from '../../assessment/proof.ts';
import { inForce } from '../../choices/allowed.ts';
import { choicesBehind } from '../../choices/behind.ts';
import { sourceWords } from '../../status.ts';
import { upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { outcomeMark } from '../marks.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, section, texts } from '../page.ts';
import { partsToDo, whyId } from './do.ts';

export const statement = ({ id, statement: said, from }: EvidenceShown): Markup => html`<li>
${said} <span class="id">${id}</span>
${from.map((item) => html`<div class="aside">${sourceWords(item)}</div>\n`)}</li>
`;

/** Each local choice behind it with its value, linked to where that comes from. */
const choiceLinks = (advice: Advice, content: Content): Piece[] =>
  [...choicesBehind(advice, content)].flatMap((id) => {
    const parameter = content.words.parameters.get(id);
    if (!parameter) return [];
    return [html`<a href="#${anchor('choice', id)}">${upperFirst(inForce(parameter, content.words))}</a>`];
  });

/** The primary statement with its sources; the others unfold. */
function evidence({ evidence: [primary, ...others] }: Advice): Piece {
  if (!primary) return undefined;
  return html`<ul class="plain">
${statement(primary)}</ul>
${
  others.length > 0 &&
  html`<details><summary>${moreEvidenceWords(others)}</summary>
<ul class="plain">
${others.map(statement)}</ul>
</details>`
}`;
}

function entry(advice: Advice, content: Content): Markup {
  const rule = ruleOf(content, advice.set, advice.rule);
  const proof = anchor('rule', advice.set, advice.rule);
  const parts = partsToDo(advice, content, false).map(({ label, texts: said }): [Piece, Piece] => {
    if (label === 'Source') return [label, evidence(advice)];
    if (label === 'Rule' && rule) return [label, html`<a href="#${proof}">${texts(said)}</a>`];
    if (label === 'Choice') return [label, undefined];
    return [label, texts(said)];
  });
  const choices: [Piece, Piece] = ['Choice', texts(choiceLinks(advice, content))];
  return html`<article>
<h3 id="${whyId(advice)}" class="marked">${rule && outcomeMark(rule)}<span>${rule?.title ?? advice.rule} <span class="id">${rule && endedWords(rule)}</span></span></h3>
${lines([...parts.slice(0, -1), choices, ...parts.slice(-1)])}</article>
`;
}

/** For each advice the reason, what was found, and every source with its status. */
export function whySection(content: Content): Piece {
  const { advice } = content.assessment;
  if (advice.length === 0) return undefined;
  return section(
    'why',
    'Why',
    html`<div class="items">
${advice.map((one) => entry(one, content))}</div>`,
  );
}
