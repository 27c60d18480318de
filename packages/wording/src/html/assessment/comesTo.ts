import type { ChoiceResult, OptionResult, RuleSetResult } from '@dwellset/core';
import {
  choiceWords,
  inOrder,
  isEmpty,
  nothingLeftWords,
  optionWords,
  rankWords,
} from '../../assessment/choice.ts';
import type { Content } from '../../assessment/context.ts';
import { nearMissWords } from '../../assessment/nearMiss.ts';
import { complianceWords, conclusionWords, populationWords, WEIGHED } from '../../assessment/sets.ts';
import { upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { optionMark } from '../marks.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, section, texts } from '../page.ts';

function optionRow(set: RuleSetResult, option: OptionResult, content: Content, rank: string): Markup {
  const { parts, remarks } = optionWords(set, option, content);
  const [state = '', ...assumed] = parts;
  const below = [...assumed.map(upperFirst), ...remarks].map(
    (text) => html`<div class="aside">${text}</div>`,
  );
  const out = option.state === 'ruled-out' && html` class="out"`;
  return html`<tr${out}><td class="figure">${rank}</td><th scope="row">${option.title}${below}</th><td><span class="marked">${optionMark(option.state)}<span>${upperFirst(state)}</span></span></td></tr>
`;
}

function choiceTable(set: RuleSetResult, choice: ChoiceResult, content: Content): Piece {
  if (isEmpty(choice)) return undefined;
  const { title, state } = choiceWords(choice);
  const { chosen, nothingLeft } = choice;
  return html`<table>
<caption>${title} <span class="id">${state}</span>${
    nothingLeft && html`<p class="summary">${nothingLeftWords(set, nothingLeft, content)}</p>`
  }</caption>
<thead><tr><th scope="col" class="figure">Rank</th><th scope="col">Option</th><th scope="col" class="state">State</th></tr></thead>
<tbody>
${inOrder(choice).map((option) => optionRow(set, option, content, rankWords(option)))}${
  chosen &&
  html`</tbody>
<tbody>
<tr><th scope="rowgroup" colspan="3" class="id">In the hand</th></tr>
${optionRow(set, chosen, content, '')}`
}</tbody>
</table>
`;
}

/** Rules that were asked about and not met, each with what stood against it. */
const weighed = (set: RuleSetResult, content: Content): Piece =>
  nearMissWords(set, content).map(
    ({ rule, said }) =>
      html`<p>${WEIGHED} <a href="#${anchor('rule', set.id, rule.id)}">${rule.title}</a> <span class="aside">${said}</span></p>\n`,
  );

function setEntry(set: RuleSetResult, content: Content): Piece {
  const patients = populationWords(set);
  const conclusion = conclusionWords(set, content);
  const compliance = complianceWords(set);
  const said: readonly Piece[] = [
    patients !== undefined && html`<p>${patients}</p>\n`,
    ...(set.population === 'out'
      ? []
      : [
          conclusion &&
            html`<p class="summary">${conclusion.title} <span class="id">${conclusion.state}</span></p>\n`,
          weighed(set, content),
          compliance && html`<p>${compliance.summary}</p>\n`,
          compliance && lines(compliance.open.map((part) => [part.label, texts(part.texts)])),
          ...(set.choices ?? []).map((choice) => choiceTable(set, choice, content)),
        ]),
  ].filter(
    (piece) => piece !== undefined && piece !== false && !(Array.isArray(piece) && piece.length === 0),
  );
  if (said.length === 0) return undefined;
  return html`<div class="group"><h3>${set.title}</h3>
${said}</div>
`;
}

/** What each rule set comes to as a whole, beyond its single advice. */
export function comesToSection(content: Content): Piece {
  const sets = content.assessment.ruleSets.map((set) => setEntry(set, content)).filter(Boolean);
  return sets.length === 0 ? undefined : section('comes-to', 'What it comes to', sets);
}
