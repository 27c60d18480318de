import type { Condition, Preference, Release, Rule } from '@dwellset/core';
import { HEADINGS, LOCKED, MEMORY_ONLY } from '../../assessment/advice.ts';
import { changeWords } from '../../assessment/local.ts';
import { usesOfRule } from '../../choices/uses.ts';
import { PARTS } from '../../conditions/reason.ts';
import { sentenceWith } from '../../conditions/sentence.ts';
import { statusWords } from '../../status.ts';
import { valueWords } from '../../values/value.ts';
import { factTitle, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { entry } from './entry.ts';
import { type Gathered, restsOnMemory, weakest } from './gathered.ts';
import { inLine, type Links, withPlaces, withTerms } from './links.ts';

const HEADING = Object.fromEntries(PARTS) as Readonly<Record<(typeof PARTS)[number][0], string>>;

/** A condition as a sentence, with links to the named conditions in it. */
export const sentence = (
  condition: Condition | undefined,
  set: Release,
  all: Gathered,
  links: Links,
): Piece =>
  condition && withTerms(sentenceWith(condition, all.words), set.id, Object.keys(set.conditions), links);

function preferred(prefers: Preference | undefined, set: Release, all: Gathered, links: Links): Piece {
  if (prefers === undefined) return undefined;
  return 'lowest' in prefers
    ? `The lowest ${factTitle(prefers.lowest, all.words)} first.`
    : sentence(prefers.options, set, all, links);
}

/** What stands above the details: how urgent, and what no hospital may do with it. */
function kind({ advice, locked, anyPopulation }: Rule): string {
  const urgency = HEADINGS.find(([indicator]) => indicator === advice?.indicator)?.[1];
  return [
    ...(urgency === undefined ? [] : [urgency]),
    ...(locked ? [LOCKED] : []),
    ...(anyPopulation ? ['speaks outside the patients of the set too'] : []),
  ].join(' · ');
}

function evidenceList(rule: Rule, all: Gathered, links: Links): Piece {
  const items = rule.evidence.flatMap((id) => {
    const found = all.evidence.find((one) => one.id === id);
    return found
      ? [
          html`${found.statement} <span class="id">${links.to('evidence', [id], id)} · ${statusWords(weakest(found))}</span>`,
        ]
      : [];
  });
  return texts(items);
}

function choicesOf(ids: Iterable<string>, { words }: Gathered, links: Links): Piece {
  const said = [...ids].flatMap((id) => {
    const parameter = words.parameters.get(id);
    if (!parameter) return [];
    return [
      html`${links.to('choice', [id], parameter.title)}: ${valueWords(parameter.value, parameter, words)}`,
    ];
  });
  return texts(said);
}

/** What the hospital did to this rule. */
const changes = (rule: Rule, { amendment }: Release, { words }: Gathered): Piece =>
  texts(
    (amendment?.changes ?? [])
      .filter(({ item }) => item === rule.id)
      .map((change) => upperFirst(changeWords(change, { words }))),
  );

/** One rule in full: when it speaks, what it says, why, and on what it rests. */
export function ruleEntry(rule: Rule, set: Release, all: Gathered, links: Links): Markup {
  const { advice, because } = rule;
  const uses = usesOfRule(rule, set);
  const detail = advice?.detail === undefined ? [] : [advice.detail].flat();
  const said = (text: string) => withPlaces(text, all, links);
  const when = (condition: Condition | undefined) => sentence(condition, set, all, links);
  const conclusion =
    rule.concludes && (all.words.conclusions.get(`${set.id}/${rule.concludes}`) ?? rule.concludes);
  const head = kind(rule);
  const content = html`<h3>${rule.title}</h3>
${head !== '' && html`<p class="aside">${head}</p>\n`}${advice && html`<p class="summary">${said(advice.summary)}</p>\n`}${lines(
  [
    [HEADING.scope, when(rule.scope)],
    [HEADING.when, when(rule.when)],
    [HEADING.expect, when(rule.expect)],
    ['What it rules out', when(rule.excludes)],
    ['What it prefers', preferred(rule.prefers, set, all, links)],
    ['What it remarks on', when(rule.remarks)],
    ['Concludes', conclusion],
    [detail.length > 1 ? 'Steps' : 'Detail', texts(detail.map(said), true)],
    [
      'Options',
      inLine(
        (advice?.suggestions ?? []).map(({ label }) => label),
        '; ',
      ),
    ],
    [
      'May be answered',
      inLine(
        (advice?.overrideReasons ?? []).map(({ display }) => display),
        '; ',
      ),
    ],
    ['Why', because],
    ['Evidence', evidenceList(rule, all, links)],
    ['Mind', restsOnMemory(rule, all.evidence) && upperFirst(MEMORY_ONLY)],
    ['Local choices', choicesOf(uses.parameters, all, links)],
    [
      'Tables',
      inLine([...uses.tables].map((id) => links.to('table', [id], all.words.tables.get(id)?.title ?? id))),
    ],
    ['Reads', inLine([...uses.facts].map((id) => links.to('fact', [id], factTitle(id, all.words))))],
    [
      'Folds',
      inLine(
        (rule.supersedes ?? []).map((id) =>
          links.to('rule', [set.id, id], all.words.rules.get(`${set.id}/${id}`) ?? id),
        ),
      ),
    ],
    [
      'Hazards',
      inLine(
        (rule.hazards ?? []).map((id) =>
          links.to('hazard', [id], all.hazards.find((one) => one.id === id)?.title ?? id),
        ),
      ),
    ],
    ['Changed here', changes(rule, set, all)],
    ['Remark', rule.note],
  ],
)}`;
  return entry(anchor('rule', set.id, rule.id), rule.id, content);
}
