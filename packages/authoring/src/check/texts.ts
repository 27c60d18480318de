import { PLACE } from '@dwellset/core';
import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { longestOfFact, longestOfParameter } from './expansion.ts';
import { didYouMean } from './nearest.ts';

/** A summary must stay below this at its longest (HL7 CDS Hooks 2.0.1). */
const SUMMARY_LENGTH = 140;

/** Texts of a rule's advice that may hold placeholders. */
export function advisedTexts(advice: Cursor): readonly Cursor[] {
  const detail = advice.at('detail');
  const labels = advice.at('suggestions').items.map((suggestion) => suggestion.at('label'));
  return [advice.at('summary'), ...(detail.isList ? detail.items : [detail]), ...labels];
}

/** A text whose places are filled when it speaks: each must name a fact or a parameter of the set. */
export function checkPlaces(at: Cursor, context: Context): void {
  const { find, owner, facts, survey, uses } = context;
  const text = at.text;
  if (text === undefined) return;
  for (const match of text.matchAll(PLACE)) {
    const id = match[1] ?? '';
    const parameter = survey.parameters.get(skeleton(id));
    const span = [match.index, match.index + match[0].length] as const;
    if (parameter !== undefined && uses !== undefined && !uses.has(parameter.topic)) {
      const message = `${owner} shows the parameter \`${id}\` of \`${parameter.topic}\`, which its set does not use`;
      find.report('parameter-not-in-uses', at, {
        message,
        span,
        hint: `add \`${parameter.topic}\` to \`uses\``,
      });
    }
    if (parameter !== undefined || facts.has(skeleton(id))) continue;
    find.report('unknown-place', at, {
      message: `\`${match[0]}\` in ${owner} names neither a fact nor a parameter`,
      span,
      received: id,
      ...didYouMean(id, [...facts.keys(), ...survey.parameters.keys()]),
    });
  }
  checkBraces(at, text, context);
}

/** Two braces that are no place would be printed as they stand. */
function checkBraces(at: Cursor, text: string, { find, owner }: Context): void {
  const rest = text.replace(PLACE, (place) => ' '.repeat(place.length));
  const start = rest.search(/\{\{|\}\}/);
  if (start < 0) return;
  const message = `a placeholder in ${owner} is not closed, or is closed without being opened`;
  find.report('unknown-place', at, {
    message,
    span: [start, start + 2],
    expected: '`{{fact-or-parameter}}`',
  });
}

/** A text that is printed as it stands: a placeholder in it would be shown raw. */
export function checkPlain(at: Cursor, { find, owner }: Pick<Context, 'find' | 'owner'>): void {
  const start = at.text?.search(/\{\{|\}\}/) ?? -1;
  if (start < 0) return;
  const message = `\`${at.key}\` of ${owner} is printed as it stands and may hold no placeholder`;
  find.report('unknown-place', at, { message, span: [start, start + 2] });
}

export function checkSummary(summary: Cursor, context: Context): void {
  const text = summary.text;
  if (text === undefined) return;
  let length = text.replace(PLACE, '').length;
  for (const [, id = ''] of text.matchAll(PLACE)) {
    const parameter = context.survey.parameters.get(skeleton(id));
    const fact = context.facts.get(skeleton(id));
    length += parameter ? longestOfParameter(parameter, context) : fact ? longestOfFact(fact, context) : 0;
  }
  if (length < SUMMARY_LENGTH) return;
  const size = Number.isFinite(length) ? `${length} characters` : 'any length';
  context.find.report('summary-too-long', summary, {
    message: `the summary of ${context.owner} can grow to ${size}`,
    expected: `fewer than ${SUMMARY_LENGTH} characters`,
    received: size,
    hint: 'move what is not needed at a glance to `detail`',
  });
}

/** Numbers as they stand in a sentence; those inside a word or an id, and `3-way`, are none. */
const NUMBER = /(?<![\w.,-])\d+(?:\.\d+)?(?!-way|\.?\d)/g;

/** `values`: number → the parameter of the rule that has it. A hospital that changes it would make the text wrong. */
export function checkTypedNumbers(
  at: Cursor,
  values: ReadonlyMap<number, string>,
  { find, owner }: Context,
): void {
  const text = at.text?.replace(PLACE, (place) => ' '.repeat(place.length));
  for (const match of text?.matchAll(NUMBER) ?? []) {
    const parameter = values.get(Number(match[0]));
    if (parameter === undefined) continue;
    find.report('typed-number', at, {
      message: `${match[0]} in ${owner} is the value of the parameter \`${parameter}\` and may change`,
      span: [match.index, match.index + match[0].length],
      received: match[0],
      hint: `write \`{{${parameter}}}\``,
    });
  }
}

/** Hard stops say what not to do, or what to do at once. */
const STOP = /^do not\b|\b(now|at once|immediately|urgent|urgently|emergency)\b/i;

export function checkHardStop(summary: Cursor, { find, owner }: Context): void {
  if (summary.text === undefined || STOP.test(summary.text)) return;
  find.report('hard-stop-wording', summary, {
    message: `the summary of the locked critical ${owner} neither starts with \`Do not\` nor says to act now`,
    expected: 'Do not …; ask …',
  });
}
