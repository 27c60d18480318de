import type { Problem } from '@dwellset/core';
import { blocks, wrap } from '../layout.ts';
import { durationWords } from '../values/duration.ts';
import { factTitle, upperFirst, type Words } from '../words.ts';
import type { Content, Context } from './context.ts';

/** Ids of facts become their titles, durations and units become words. */
const plain = (message: string, words: Words): string =>
  message
    .replace(/\b[a-z]+\.[a-z][a-z0-9-]*/g, (id) => factTitle(id, words))
    .replace(/\bP(?:\d+D)?(?:T(?:\d+H)?(?:\d+M)?)?(?![\w-])/g, durationWords)
    .replace(/\[([A-Za-z]+)\]/g, '$1');

function problemWords(problem: Problem, words: Words): string {
  const message = plain(problem.message, words);
  const text = problem.fact === undefined ? message : `${factTitle(problem.fact, words)}: ${message}`;
  const hint = problem.hint === undefined ? '' : `; ${plain(problem.hint, words)}`;
  return `${upperFirst(text)}${hint}`;
}

/** What the case holds and no rule set at hand reads is no mistake, but may be a misspelt name: it is said apart. */
const isUnread = ({ code }: Problem): boolean => code === 'not-read';

/** Entries that were not used, or not used as they stand, under what they have in common. */
export function problemGroups({ assessment: { problems }, words }: Content) {
  const mistakes = problems.filter((one) => !isUnread(one)).map((one) => problemWords(one, words));
  const unread = problems.filter(isUnread).map(({ message }) => message);
  return [
    { heading: 'Problems in the record', texts: mistakes },
    { heading: 'Supplied, but read by no rule here', texts: unread },
  ].filter(({ texts }) => texts.length > 0);
}

export const problemSection = (context: Context): string[] =>
  blocks(
    problemGroups(context).map(({ heading, texts }) => [
      heading,
      '',
      ...texts.flatMap((text) => wrap(text, context.width, '  ', '     ')),
    ]),
  );
