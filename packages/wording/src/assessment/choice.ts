import type { ChoiceResult, OptionResult, RuleSetResult } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { readingWords } from '../values/reading.ts';
import { factTitle, listed, upperFirst } from '../words.ts';
import { type Content, type Context, ruleTitle } from './context.ts';

const titles = (set: RuleSetResult, rules: readonly string[], context: Content): string =>
  listed(
    rules.map((rule) => ruleTitle(context, rule, set.id)),
    'and',
  );

/** The state of an option in words, with the rules behind it. */
function stateWords(set: RuleSetResult, option: OptionResult, context: Content): string {
  switch (option.state) {
    case 'open':
      return 'open';
    case 'to-confirm':
      return `to confirm, not yet decided: ${titles(set, option.undecided, context)}`;
    case 'held':
      return `held, a stop is not yet decided: ${titles(set, option.undecided, context)}`;
    case 'ruled-out':
      return `ruled out by ${titles(set, option.excludedBy, context)}`;
  }
}

function assumed(option: OptionResult, context: Content): string[] {
  return option.facts
    .filter((read) => read.assumed)
    .map(
      (read) => `${factTitle(read.fact, context.words)}: ${readingWords(read, context.words, context.zone)}`,
    );
}

/** One option: its state and the values taken on trust, and what is to be said of it. */
export function optionWords(
  set: RuleSetResult,
  option: OptionResult,
  context: Content,
): { readonly parts: readonly string[]; readonly remarks: readonly string[] } {
  // What nobody may take needs neither its assumed values nor its remarks.
  const out = option.state === 'ruled-out';
  return {
    parts: [stateWords(set, option, context), ...(out ? [] : assumed(option, context))],
    remarks: out ? [] : option.remarks.map(({ summary }) => summary),
  };
}

/** How many options are left, and whether their order stands. */
export function choiceWords({ of, options, provisional }: ChoiceResult): { title: string; state: string } {
  const fits = options.filter(({ state }) => state !== 'ruled-out');
  const order = provisional ? 'order not yet settled' : 'order settled';
  return { title: upperFirst(of), state: `${fits.length} of ${options.length} left, ${order}` };
}

export const nothingLeftWords = (set: RuleSetResult, rules: readonly string[], context: Content): string =>
  `Nothing in stock suits: ruled out by ${titles(set, rules, context)}.`;

/** In rank order, the ruled-out ones last. */
export const inOrder = ({ options }: ChoiceResult): readonly OptionResult[] => [
  ...options.filter(({ state }) => state !== 'ruled-out'),
  ...options.filter(({ state }) => state === 'ruled-out'),
];

/** Options that nobody judged, and nothing in the hand. */
export const isEmpty = ({ options, chosen }: ChoiceResult): boolean => options.length === 0 && !chosen;

export const rankWords = ({ rank }: OptionResult): string => (rank === undefined ? '–' : String(rank));

const RANK = 5;

function optionLines(set: RuleSetResult, option: OptionResult, context: Context): string[] {
  const { parts, remarks } = optionWords(set, option, context);
  const line = [option.title, ...parts].join(' · ');
  return [
    ...wrap(line, context.width, `  ${rankWords(option).padEnd(RANK - 2)}`),
    ...remarks.flatMap((remark) => wrap(remark, context.width, ' '.repeat(RANK + 2))),
  ];
}

/** Options in rank order, the ruled-out ones last and with what rules them out; nothing where none was judged. */
export function choiceLines(set: RuleSetResult, choice: ChoiceResult, context: Context): string[] {
  if (isEmpty(choice)) return [];
  const { chosen, nothingLeft } = choice;
  const { title, state } = choiceWords(choice);
  const line = (text: string) => wrap(text, context.width, '  ', '     ');
  return [
    ...line(`${title} – ${state}`),
    ...(nothingLeft ? line(nothingLeftWords(set, nothingLeft, context)) : []),
    ...inOrder(choice).flatMap((option) => optionLines(set, option, context)),
    ...(chosen
      ? line([`In the hand: ${chosen.title}`, ...optionWords(set, chosen, context).parts].join(' · '))
      : []),
  ];
}
