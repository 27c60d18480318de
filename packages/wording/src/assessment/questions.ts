import type { Question } from '@dwellset/core';
import { blocks, wrap } from '../layout.ts';
import { causeWords } from '../values/cause.ts';
import { counted, listed, upperFirst } from '../words.ts';
import { type Context, ruleTitle } from './context.ts';

const MOST = 5;
const MOST_WAITING = 2;

function waiting(question: Question, context: Context): string {
  const titles = question.rules.slice(0, MOST_WAITING).map((rule) => ruleTitle(context, rule));
  const more = question.rules.length - titles.length;
  const rules = listed(more > 0 ? [...titles, counted(more, 'other rule')] : titles, 'and');
  if (rules === '') return '';
  return question.holdsUpStop ? ` A stop waits for it: ${rules}.` : ` Waiting for it: ${rules}.`;
}

/** What would settle most, the questions behind a stop first. */
export function questionSection(context: Context): string[] {
  const { ask, counts } = context.assessment;
  if (ask.length === 0) {
    if (counts.undetermined === 0) return [];
    const none = `${counted(counts.undetermined, 'rule')} could not be decided, and nothing is left that can be asked.`;
    return ['Not known: ask', '', ...wrap(none, context.width, '  ')];
  }
  const asked = ask
    .slice(0, MOST)
    .map((question, index) => [
      ...wrap(question.question, context.width, `  ${index + 1}  `),
      ...wrap(
        `${upperFirst(causeWords(question.cause))}.${waiting(question, context)}`,
        context.width,
        '     ',
      ),
    ]);
  const rest = ask.length - asked.length;
  const more = rest > 0 ? [wrap(`and ${counted(rest, 'further question')}`, context.width, '     ')] : [];
  return ['Not known: ask', '', ...blocks([...asked, ...more])];
}
