import type { Reason, RuleResult, RuleSetResult } from '@dwellset/core';
import type { Content } from '../../assessment/context.ts';
import { endedWords, outcomeWords, PROOF_HEADING, shownReasons } from '../../assessment/proof.ts';
import { ABOUT_HEADING, aboutParts } from '../../assessment/sets.ts';
import { PARTS, reasonWords, TRUTH } from '../../conditions/reason.ts';
import { counted } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { outcomeMark, truthMark } from '../marks.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, section, texts } from '../page.ts';

function tree(reason: Reason, content: Content): Markup {
  const words = reasonWords(reason, content);
  const below = 'of' in reason ? reason.of : [];
  const decides = reason.deciding && html` <span class="id">decides</span>`;
  const choice = (reason.kind === 'fact' || reason.kind === 'parameter') && reason.parameter;
  const origin =
    choice &&
    content.words.parameters.has(choice) &&
    html` <a class="id" href="#${anchor('choice', choice)}">where the value comes from</a>`;
  return html`<li><span class="truth">${truthMark(reason.truth)}${TRUTH[reason.truth]}</span> <span class="said${reason.deciding && ' decides'}">${words}${decides}${origin}</span>${
    below.length > 0 && html`<ul>${below.map((part) => tree(part, content))}</ul>`
  }</li>
`;
}

function ruleEntry(set: RuleSetResult, rule: RuleResult, content: Content): Markup {
  const shown = shownReasons(rule);
  const parts = PARTS.map(([part, heading]) => {
    const reason = shown[part];
    return (
      reason &&
      html`<h4>${heading}</h4>
<ul class="tree">${tree(reason, content)}</ul>
`
    );
  });
  return html`<details class="rule" id="${anchor('rule', set.id, rule.id)}"><summary>${outcomeMark(rule)}<span class="title">${rule.title}</span> <span class="ended">${endedWords(rule)}</span></summary>
<div class="statement"><p class="id">${set.id}/${rule.id}</p>
${parts}</div>
</details>
`;
}

/** Rules that count in this patient stand open to view; the others are one line until somebody asks. */
function ruleEntries(set: RuleSetResult, content: Content): Piece {
  const out = set.rules.filter(({ outcome }) => outcome === 'not-in-scope');
  const inScope = set.rules.filter((rule) => !out.includes(rule));
  const [first] = out;
  return [
    inScope.map((rule) => ruleEntry(set, rule, content)),
    first &&
      html`<details class="rules"><summary>${outcomeMark(first)}<span class="title">${counted(out.length, inScope.length === 0 ? 'rule' : 'other rule')}</span> <span class="ended">${outcomeWords(first)}</span></summary>
${out.map((rule) => ruleEntry(set, rule, content))}</details>
`,
  ];
}

/** One example of each way to end that occurs, in words that people see. */
function legend(sets: readonly RuleSetResult[]): Markup {
  const kinds = new Map<string, RuleResult>();
  for (const rule of sets.flatMap(({ rules }) => rules)) {
    const words = outcomeWords(rule);
    if (!kinds.has(words)) kinds.set(words, rule);
  }
  return html`<p class="aside legend">${[...kinds].map(([words, rule]) => html`<span>${outcomeMark(rule)}${words}</span> `)}</p>
`;
}

/** Every rule with how it ended; its whole statement of reasons unfolds. */
export function proofSection(content: Content): Piece {
  const { ruleSets } = content.assessment;
  const groups = ruleSets
    .filter(({ rules }) => rules.length > 0)
    .map(
      (set) => html`<div class="group"><h3>${set.title}</h3>
${ruleEntries(set, content)}</div>
`,
    );
  return groups.length === 0 ? undefined : section('proof', PROOF_HEADING, [legend(ruleSets), groups]);
}

/** What each rule set is for, and what a hospital has changed in it. */
export const aboutSection = ({ assessment: { ruleSets } }: Content): Piece =>
  section(
    'about',
    ABOUT_HEADING,
    ruleSets.map(
      (set) => html`<div class="group"><h3>${set.title} <span class="id">${set.id}@${set.version}</span></h3>
${lines(aboutParts(set).map(({ label, texts: said }) => [label, texts(said)]))}</div>
`,
    ),
  );
