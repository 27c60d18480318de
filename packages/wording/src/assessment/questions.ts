import type { Question } from '@dwellset/core';
import { blocks, wrap } from '../layout.ts';
import { causeWords } from '../values/cause.ts';
import { counted, listed, upperFirst } from '../words.ts';
import { type Content, type Context, ruleTitle } from './context.ts';

const MOST = 5;
const MOST_WAITING = 2;

function waiting(question: Question, context: Content): string {
  const titles = question.rules.slice(0, MOST_WAITING).map((rule) => ruleTitle(context, rule));
  const more = question.rules.length - titles.length;
  const rules = listed(more > 0 ? [...titles, counted(more, 'other rule')] : titles, 'and');
  if (rules === '') return '';
  return question.holdsUpStop ? ` A stop waits for it: ${rules}.` : ` Waiting for it: ${rules}.`;
}

export interface QuestionsSaid {
  readonly asked: readonly { readonly question: string; readonly said: string; readonly fact: string }[];
  /** What is not listed. */
  readonly more?: string;
}

/** What would settle most, the questions behind a stop first; nothing where nothing is open. */
export function questionWords(context: Content): QuestionsSaid | undefined {
  const { ask, counts } = context.assessment;
  if (ask.length === 0) {
    if (counts.undetermined === 0) return undefined;
    const none = `${counted(counts.undetermined, 'rule')} could not be decided, and nothing is left that can be asked.`;
    return { asked: [], more: none };
  }
  const asked = ask.slice(0, MOST).map((question) => ({
    fact: question.fact,
    question: question.question,
    said: `${upperFirst(causeWords(question.cause))}.${waiting(question, context)}`,
  }));
  const rest = ask.length - asked.length;
  return { asked, ...(rest > 0 && { more: `and ${counted(rest, 'further question')}` }) };
}

export const ASK_HEADING = 'Not known: ask';

export function questionSection(context: Context): string[] {
  const { width } = context;
  const questions = questionWords(context);
  if (!questions) return [];
  const { asked, more } = questions;
  const margin = ' '.repeat(asked.length === 0 ? 2 : 5);
  return [
    ASK_HEADING,
    '',
    ...blocks([
      ...asked.map(({ question, said }, index) => [
        ...wrap(question, width, `  ${index + 1}  `),
        ...wrap(said, width, '     '),
      ]),
      ...(more === undefined ? [] : [wrap(more, width, margin)]),
    ]),
  ];
}
