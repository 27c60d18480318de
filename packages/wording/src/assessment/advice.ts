import type { Advice, Indicator, Reason } from '@dwellset/core';
import { blocks, labelled, wrap } from '../layout.ts';
import { sourceWords } from '../status.ts';
import { momentWords } from '../values/moment.ts';
import { foundWords } from '../values/reading.ts';
import { counted, factTitle, listed } from '../words.ts';
import { type Content, type Context, type Part, ruleOf, ruleTitle, setOf } from './context.ts';
import { localChanges, unchangedChoices } from './local.ts';

/** Most urgent first. */
export const HEADINGS: readonly (readonly [Indicator, string])[] = [
  ['critical', 'Do now'],
  ['warning', 'Do'],
  ['info', 'Note'],
];

type Comparison = Extract<Reason, { kind: 'fact' }>;

/** Comparisons at the deciding ends of a tree, each fact once. */
function deciding(reason: Reason | undefined, found = new Map<string, Comparison>()) {
  if (!reason?.deciding) return found;
  if (reason.kind === 'fact') found.set(reason.read.fact, reason);
  if ('of' in reason) for (const part of reason.of) deciding(part, found);
  return found;
}

/** Codes that were found, and that a local choice does not count. */
function countsNot({ read, parameter, operator, truth }: Comparison): string {
  const asked = operator === 'containsAny' || operator === 'contains' || operator === 'in';
  const something = typeof read.value === 'string' || (Array.isArray(read.value) && read.value.length > 0);
  return parameter !== undefined && asked && truth === 'false' && something
    ? ', which does not count here'
    : '';
}

/** One line a fact: what was found that made the rule speak. */
function findings(advice: Advice, { words, zone, ...context }: Content): string[] {
  if (!context.findings) return [];
  const reasons = ruleOf({ words, zone, ...context }, advice.set, advice.rule)?.reasons;
  const [day] = momentWords(context.assessment.asOf, zone).split(' ');
  const found = deciding(reasons?.expect, deciding(reasons?.when));
  return [...found.values()].map(
    (one) => `${factTitle(one.read.fact, words)}: ${foundWords(one.read, words, zone, day)}${countsNot(one)}`,
  );
}

export const LOCKED = 'locked: no hospital may switch it off';
export const MEMORY_ONLY = 'this advice rests on memory alone, not checked';

/** What a reader must bear in mind about this advice before leaning on it. */
function reservations(advice: Advice, context: Content): string[] {
  const stronger = (advice.strongerUndecided ?? []).map((name) => ruleTitle(context, name, advice.set));
  return [
    ...(advice.memoryOnly ? [MEMORY_ONLY] : []),
    ...(advice.populationNotEstablished
      ? ['population not established: said because this stop is locked and nothing rules it out']
      : []),
    ...(stronger.length === 0 ? [] : [`stronger rules, not yet decided: ${listed(stronger, 'and')}`]),
  ];
}

/** Its title; the kind of item where it has none. */
const itemInHand = (set: string, kind: string, context: Content): string =>
  setOf(context, set)?.choices?.find(({ of }) => of === kind)?.chosen?.title ?? kind;

export const moreEvidenceWords = (others: readonly { readonly id: string }[]): string =>
  `and ${others.length} more: ${others.map(({ id }) => id).join(', ')}`;

/** Every source of the primary statement; the others by id. */
function sources(advice: Advice): string[] {
  const [primary, ...others] = advice.evidence;
  const lines = (primary?.from ?? []).map(sourceWords);
  if (others.length === 0) return lines;
  return [...lines, moreEvidenceWords(others)];
}

function folded(advice: Advice, context: Content): string[] {
  if (advice.folded.length === 0) return [];
  const titles = advice.folded.map((name) => ruleTitle(context, name, advice.set));
  return [`${counted(titles.length, 'weaker rule')}, ${listed(titles, 'and')}`];
}

/** Everything said of one advice below its summary, label by label; a part without texts is left out. */
export function adviceParts(advice: Advice, context: Content): Part[] {
  const { answered, chosen, detail, suggestions } = advice;
  const parts: readonly Part[] = [
    {
      label: 'About',
      texts: chosen === undefined ? [] : [`the item in the hand: ${itemInHand(advice.set, chosen, context)}`],
    },
    { label: 'Why', texts: [advice.because] },
    { label: 'Found', texts: findings(advice, context) },
    detail.length > 1 ? { label: 'Steps', texts: detail, steps: true } : { label: 'Detail', texts: detail },
    {
      label: 'Options',
      texts: suggestions.length === 0 ? [] : [suggestions.map(({ label }) => label).join('; ')],
    },
    { label: 'Source', texts: sources(advice) },
    { label: 'Mind', texts: reservations(advice, context) },
    { label: 'Choice', texts: context.findings ? unchangedChoices(advice, context) : [] },
    { label: 'Local', texts: localChanges(advice, context) },
    { label: 'Folded', texts: folded(advice, context) },
    {
      label: 'Answer',
      texts: answered
        ? [`answered with "${answered.reason}" until ${momentWords(answered.until, context.zone)}`]
        : [],
    },
    {
      label: 'Rule',
      texts: [`${advice.id}${advice.locked ? `, ${LOCKED}` : ''}`],
    },
  ];
  return parts.filter(({ texts }) => texts.length > 0);
}

const adviceLines = (advice: Advice, context: Context): string[] => [
  ...wrap(advice.summary, context.width, '  '),
  ...adviceParts(advice, context).flatMap(({ label, texts, steps }) =>
    labelled(label, steps ? texts.map((text, index) => `${index + 1}. ${text}`) : texts, context.width),
  ),
];

/** An assessment without advice says so. */
export function noAdviceWords({ assessment: { counts } }: Content): string {
  const nothing = counts.applies === 0 ? 'No rule applied' : 'No rule that applied has advice';
  return `${nothing}; ${counts.undetermined} could not be decided, ${counts.notInScope} not in scope.`;
}

/** What to do, the most urgent first, each with its reason and its source. */
export function adviceSections(context: Context): string[][] {
  const { advice } = context.assessment;
  if (advice.length === 0) return [wrap(noAdviceWords(context), context.width)];
  return HEADINGS.flatMap(([indicator, heading]) => {
    const spoken = advice.filter((entry) => entry.indicator === indicator);
    if (spoken.length === 0) return [];
    return [[heading, '', ...blocks(spoken.map((entry) => adviceLines(entry, context)))]];
  });
}
