import {
  briefSource,
  CHOICES_HEADING,
  type ChoiceSaid,
  choicesSaid,
} from '../../assessment/choicesBehind.ts';
import type { Content } from '../../assessment/context.ts';
import { choicesOf, choicesRead, type RuleNamed } from '../../choices/behind.ts';
import { counted, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, joined, type Markup, type Piece } from '../markup.ts';
import { lines, section, texts } from '../page.ts';
import { statement } from './why.ts';

type Position = ChoiceSaid['positions'][number];

const ruleLinks = (rules: readonly RuleNamed[]): Piece =>
  joined(
    rules.map(({ set, id, title }) => html`<a href="#${anchor('rule', set, id)}">${title}</a>`),
    ' · ',
  );

/** A value, whether it is in force or open to a hospital, and what stands behind it. */
function position({ value, standing, evidence, note }: Position): Markup {
  const [first] = evidence;
  return html`<li><p>${upperFirst(value)} <b>${standing}</b></p>
${note !== undefined && html`<div class="aside">${note}</div>\n`}${
  first &&
  html`<details><summary>${briefSource(first)}${evidence.length > 1 && ` and ${evidence.length - 1} more`}</summary>
<ul class="plain">
${evidence.map(statement)}</ul>
</details>
`
}</li>
`;
}

const choice = ({ id, title, rules, positions, allowed, cautious, changes, note }: ChoiceSaid): Markup =>
  html`<article>
<h3 id="${anchor('choice', id)}">${title}</h3>
${lines([
  ['Decides', ruleLinks(rules)],
  ['Changed', texts(changes)],
  ['Positions', positions.length > 0 && html`<ul class="plain positions">\n${positions.map(position)}</ul>`],
  ['May be', texts(allowed)],
  ['Cautious side', cautious],
  ['Remark', note],
])}</article>
`;

/**
 * Where the values come from that a hospital may set for itself: first those behind what is said, then, folded, all
 * others in the proof.
 */
export function choicesSection(content: Content): Piece {
  const behind = choicesOf(content);
  const others = new Map([...choicesRead(content)].filter(([id]) => !behind.has(id)));
  const said = choicesSaid(behind, content);
  const rest = choicesSaid(others, content).map((one) => choice({ ...one }));
  if (said.length + rest.length === 0) return undefined;
  return section('choices', CHOICES_HEADING, [
    html`<p class="aside">A hospital may set these values for itself, each with a reason.</p>
<div class="items">
${said.map(choice)}</div>`,
    rest.length > 0 &&
      html`<details class="more"><summary>${counted(rest.length, 'other choice')} in the proof</summary>
<div class="items">
${rest}</div>
</details>`,
  ]);
}
