import type { Advice, FactReading, Indicator, Reason } from '@dwellset/core';
import { blocks, labelled, wrap } from '../layout.ts';
import { sourceWords } from '../status.ts';
import { momentWords } from '../values/moment.ts';
import { foundWords } from '../values/reading.ts';
import { counted, factTitle, listed } from '../words.ts';
import { type Context, ruleOf, ruleTitle, setOf } from './context.ts';
import { localChanges } from './local.ts';

const HEADINGS: readonly (readonly [Indicator, string])[] = [
  ['critical', 'Do now'],
  ['warning', 'Do'],
  ['info', 'Note'],
];

/** Readings at the deciding ends of a tree, each fact once. */
function decidingReadings(reason: Reason | undefined, found = new Map<string, FactReading>()) {
  if (!reason?.deciding) return found;
  if (reason.kind === 'fact') found.set(reason.read.fact, reason.read);
  if ('of' in reason) for (const part of reason.of) decidingReadings(part, found);
  return found;
}

/** One line a fact: what was found that made the rule speak. */
function findings(advice: Advice, { words, zone, ...context }: Context): string[] {
  if (!context.findings) return [];
  const reasons = ruleOf({ words, zone, ...context }, advice.set, advice.rule)?.reasons;
  const [day] = momentWords(context.assessment.asOf, zone).split(' ');
  const readings = decidingReadings(reasons?.expect, decidingReadings(reasons?.when));
  return [...readings.values()].map(
    (read) => `${factTitle(read.fact, words)}: ${foundWords(read, words, zone, day)}`,
  );
}

/** What a reader must bear in mind about this advice before leaning on it. */
function reservations(advice: Advice, context: Context): string[] {
  const stronger = (advice.strongerUndecided ?? []).map((name) => ruleTitle(context, name, advice.set));
  return [
    ...(advice.memoryOnly ? ['this advice rests on memory alone, not checked'] : []),
    ...(advice.populationNotEstablished
      ? ['population not established: said because this stop is locked and nothing rules it out']
      : []),
    ...(stronger.length === 0 ? [] : [`stronger rules, not yet decided: ${listed(stronger, 'and')}`]),
  ];
}

/** Its title; the kind of item where it has none. */
const itemInHand = (set: string, kind: string, context: Context): string =>
  setOf(context, set)?.choices?.find(({ of }) => of === kind)?.chosen?.title ?? kind;

/** Every source of the primary statement; the others by id. */
function sources(advice: Advice): string[] {
  const [primary, ...others] = advice.evidence;
  const lines = (primary?.from ?? []).map(sourceWords);
  if (others.length === 0) return lines;
  return [...lines, `and ${others.length} more: ${others.map(({ id }) => id).join(', ')}`];
}

function folded(advice: Advice, context: Context): string[] {
  if (advice.folded.length === 0) return [];
  const titles = advice.folded.map((name) => ruleTitle(context, name, advice.set));
  return [`${counted(titles.length, 'weaker rule')}, ${listed(titles, 'and')}`];
}

function adviceLines(advice: Advice, context: Context): string[] {
  const { width, zone } = context;
  const { answered, chosen, detail, suggestions } = advice;
  const lines = (label: string, texts: readonly string[]) => labelled(label, texts, width);
  return [
    ...wrap(advice.summary, width, '  '),
    ...lines(
      'About',
      chosen === undefined ? [] : [`the item in the hand: ${itemInHand(advice.set, chosen, context)}`],
    ),
    ...lines('Why', [advice.because]),
    ...lines('Found', findings(advice, context)),
    ...(detail.length > 1
      ? lines(
          'Steps',
          detail.map((text, index) => `${index + 1}. ${text}`),
        )
      : lines('Detail', detail)),
    ...lines('Options', suggestions.length === 0 ? [] : [suggestions.map(({ label }) => label).join('; ')]),
    ...lines('Source', sources(advice)),
    ...lines('Mind', reservations(advice, context)),
    ...lines('Local', localChanges(advice, context)),
    ...lines('Folded', folded(advice, context)),
    ...lines(
      'Answer',
      answered ? [`answered with "${answered.reason}" until ${momentWords(answered.until, zone)}`] : [],
    ),
    ...lines('Rule', [`${advice.id}${advice.locked ? ', locked: no hospital may switch it off' : ''}`]),
  ];
}

/** What to do, the most urgent first, each with its reason and its source. */
export function adviceSections(context: Context): string[][] {
  const { advice, counts } = context.assessment;
  if (advice.length === 0) {
    const nothing = counts.applies === 0 ? 'No rule applied' : 'No rule that applied has advice';
    const none = `${nothing}; ${counts.undetermined} could not be decided, ${counts.notInScope} not in scope.`;
    return [wrap(none, context.width)];
  }
  return HEADINGS.flatMap(([indicator, heading]) => {
    const spoken = advice.filter((entry) => entry.indicator === indicator);
    if (spoken.length === 0) return [];
    return [[heading, '', ...blocks(spoken.map((entry) => adviceLines(entry, context)))]];
  });
}
