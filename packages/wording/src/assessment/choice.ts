import type { ChoiceResult, OptionResult, RuleSetResult } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { readingWords } from '../values/reading.ts';
import { factTitle, listed, upperFirst } from '../words.ts';
import { type Context, ruleTitle } from './context.ts';

const titles = (set: RuleSetResult, rules: readonly string[], context: Context): string =>
  listed(
    rules.map((rule) => ruleTitle(context, rule, set.id)),
    'and',
  );

/** The state of an option in words, with the rules behind it. */
function stateWords(set: RuleSetResult, option: OptionResult, context: Context): string {
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

function assumed(option: OptionResult, context: Context): string[] {
  return option.facts
    .filter((read) => read.assumed)
    .map(
      (read) => `${factTitle(read.fact, context.words)}: ${readingWords(read, context.words, context.zone)}`,
    );
}

const RANK = 5;

/** What nobody may take needs neither its assumed values nor its remarks. */
function optionLines(set: RuleSetResult, option: OptionResult, context: Context): string[] {
  const out = option.state === 'ruled-out';
  const rank = option.rank === undefined ? '–' : String(option.rank);
  const parts = [option.title, stateWords(set, option, context), ...(out ? [] : assumed(option, context))];
  return [
    ...wrap(parts.join(' · '), context.width, `  ${rank.padEnd(RANK - 2)}`),
    ...(out
      ? []
      : option.remarks.flatMap(({ summary }) => wrap(summary, context.width, ' '.repeat(RANK + 2)))),
  ];
}

/** Options in rank order, the ruled-out ones last and with what rules them out; nothing where none was judged. */
export function choiceLines(set: RuleSetResult, choice: ChoiceResult, context: Context): string[] {
  const { options, chosen, nothingLeft, provisional } = choice;
  if (options.length === 0 && !chosen) return [];
  const line = (text: string) => wrap(text, context.width, '  ', '     ');
  const fits = options.filter(({ state }) => state !== 'ruled-out');
  const out = options.filter(({ state }) => state === 'ruled-out');
  const order = provisional ? 'order not yet settled' : 'order settled';
  return [
    ...line(`${upperFirst(choice.of)} – ${fits.length} of ${options.length} left, ${order}`),
    ...(nothingLeft
      ? line(`Nothing in stock suits: ruled out by ${titles(set, nothingLeft, context)}.`)
      : []),
    ...[...fits, ...out].flatMap((option) => optionLines(set, option, context)),
    ...(chosen
      ? line(
          [
            `In the hand: ${chosen.title}`,
            stateWords(set, chosen, context),
            ...assumed(chosen, context),
          ].join(' · '),
        )
      : []),
  ];
}
