import type { Content } from '../../assessment/context.ts';
import { ASK_HEADING, questionWords } from '../../assessment/questions.ts';
import { html, type Piece } from '../markup.ts';
import { section } from '../page.ts';

/** What is not known and would settle most, the questions behind a stop first. */
export function askSection(content: Content): Piece {
  const questions = questionWords(content);
  if (!questions) return undefined;
  const { asked, more } = questions;
  const list =
    asked.length > 0 &&
    html`<ol class="items questions">
${asked.map(({ question, said }) => html`<li><p class="summary">${question}</p><p class="aside">${said}</p></li>\n`)}</ol>
`;
  return section('ask', ASK_HEADING, [list, more !== undefined && html`<p class="aside">${more}</p>`]);
}
