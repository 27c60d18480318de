import type { Problem } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { durationWords } from '../values/duration.ts';
import { factTitle, upperFirst, type Words } from '../words.ts';
import type { Context } from './context.ts';

/** Ids of facts become their titles, durations and units become words. */
const plain = (message: string, words: Words): string =>
  message
    .replace(/\b[a-z]+\.[a-z][a-z0-9-]*/g, (id) => factTitle(id, words))
    .replace(/\bP(?:\d+D)?(?:T(?:\d+H)?(?:\d+M)?)?(?![\w-])/g, durationWords)
    .replace(/\[([A-Za-z]+)\]/g, '$1');

function problemLines(problem: Problem, { words, width }: Context): string[] {
  const message = plain(problem.message, words);
  const text = problem.fact === undefined ? message : `${factTitle(problem.fact, words)}: ${message}`;
  const hint = problem.hint === undefined ? '' : `; ${plain(problem.hint, words)}`;
  return wrap(`${upperFirst(text)}${hint}`, width, '  ', '     ');
}

/** What the case holds and no rule set at hand reads is no mistake, but may be a misspelt name: it is said apart. */
const isUnread = ({ code }: Problem): boolean => code === 'not-read';

/** Entries that were not used, or not used as they stand. */
export function problemSection(context: Context): string[] {
  const { problems } = context.assessment;
  const [mistakes, unread] = [problems.filter((one) => !isUnread(one)), problems.filter(isUnread)];
  return [
    ...(mistakes.length === 0
      ? []
      : ['Problems in the record', '', ...mistakes.flatMap((one) => problemLines(one, context))]),
    ...(mistakes.length > 0 && unread.length > 0 ? [''] : []),
    ...(unread.length === 0
      ? []
      : [
          'Supplied, but read by no rule here',
          '',
          ...unread.flatMap(({ message }) => wrap(message, context.width, '  ', '  ')),
        ]),
  ];
}
