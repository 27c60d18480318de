import type { Advice } from '@dwellset/core';
import { adviceParts, HEADINGS, noAdviceWords } from '../../assessment/advice.ts';
import type { Content } from '../../assessment/context.ts';
import { anchor } from '../anchor.ts';
import { html, type Markup, type Piece } from '../markup.ts';
import { lines, section, texts } from '../page.ts';

/** Parts that say what to do, or how far to lean on it; the others answer why. */
const TO_DO: ReadonlySet<string> = new Set(['About', 'Steps', 'Detail', 'Options', 'Mind', 'Answer']);

export const whyId = ({ set, rule, chosen }: Advice): string =>
  anchor('why', set, rule, ...(chosen === undefined ? [] : [chosen]));

/** The parts of an advice that say what to do, or the others. */
export const partsToDo = (advice: Advice, content: Content, wanted: boolean) =>
  adviceParts(advice, content).filter(({ label }) => TO_DO.has(label) === wanted);

const entry = (advice: Advice, content: Content): Markup => html`<li>
<p class="summary">${advice.summary}</p>
${lines(partsToDo(advice, content, true).map(({ label, texts: said, steps }) => [label, texts(said, steps)]))}<p class="aside screen"><a href="#${whyId(advice)}">Why: ${advice.because}</a></p>
</li>
`;

/** What to do, the most urgent first; reasons and sources follow further down. */
export function doSections(content: Content): Piece {
  const { advice } = content.assessment;
  if (advice.length === 0) return section('do', 'Do', html`<p class="summary">${noAdviceWords(content)}</p>`);
  return HEADINGS.map(([indicator, heading]) => {
    const spoken = advice.filter((one) => one.indicator === indicator);
    if (spoken.length === 0) return undefined;
    const kind = indicator === 'critical' ? 'now' : indicator === 'info' ? 'quiet' : undefined;
    const list = html`<ul class="items plain">
${spoken.map((one) => entry(one, content))}</ul>`;
    return section(`do-${indicator}`, heading, list, kind);
  });
}
