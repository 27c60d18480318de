import type { Advice, AmendmentRecord } from '@dwellset/core';
import { inForce, sameValue } from '../choices/allowed.ts';
import { choicesBehind, isCellBehind } from '../choices/behind.ts';
import { cellOf } from '../choices/cells.ts';
import { amountWords } from '../values/units.ts';
import { factTitle, lowerFirst } from '../words.ts';
import { type Content, setOf } from './context.ts';

type LocalChange = AmendmentRecord['changes'][number];

/** Amendments record values as text; those of a number get its unit. */
function recorded(text: string, change: LocalChange, { words }: Pick<Content, 'words'>): string {
  const measured = words.parameters.get(change.item) ?? cellOf(change.item, words)?.column;
  return measured?.type === 'number' && !Number.isNaN(Number(text))
    ? amountWords(Number(text), measured)
    : text;
}

/** What was changed, from what to what, and why. */
export function changeWords(change: LocalChange, context: Pick<Content, 'words'>): string {
  const { from, to, item, reason } = change;
  if (change.change === 'set') {
    const parameter = context.words.parameters.get(item);
    const title = parameter
      ? lowerFirst(parameter.title)
      : (cellOf(item, context.words)?.title ?? factTitle(item, context.words));
    const values = [
      ...(to === undefined ? [] : [`${recorded(to, change, context)} here`]),
      ...(from === undefined ? [] : [`${recorded(from, change, context)} as published`]),
    ].join(', ');
    return `${title}: ${values} – ${reason}`;
  }
  const said = change.change.replaceAll('-', ' ');
  const values = change.change === 'raised' ? ` from ${from} to ${to}` : '';
  return `${said} here${values} – ${reason}`;
}

/** What the hospital changed in a rule that speaks, or in the local choices that made it speak, with its reasons. */
export function localChanges(advice: Advice, context: Content): string[] {
  const choices = choicesBehind(advice, context);
  const isCell = isCellBehind(advice, context);
  const changes = (setOf(context, advice.set)?.amendment?.changes ?? []).filter(
    ({ item }) => item === advice.rule || choices.has(item) || isCell(item),
  );
  const own = changes.some(({ item }) => item === advice.rule);
  return [
    ...(advice.local && !own ? [`${advice.local.change} here – ${advice.local.reason}`] : []),
    ...changes.map((change) => changeWords(change, context)),
  ];
}

/** The local choices behind an advice that stand as published; those that were changed are said with the reason. */
export const unchangedChoices = (advice: Advice, context: Content): string[] =>
  [...choicesBehind(advice, context)].flatMap((id) => {
    const parameter = context.words.parameters.get(id);
    return parameter && sameValue(parameter.value, parameter.default)
      ? [inForce(parameter, context.words)]
      : [];
  });
