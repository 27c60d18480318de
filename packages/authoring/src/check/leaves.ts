import { OPERATORS } from '@dwellset/core';
import { skeleton } from './confusables.ts';
import { type Context, factNamed, parameterNamed } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { Typed } from './entries.ts';
import { checkLeafValue, type LeafKind } from './leafValues.ts';
import { didYouMean } from './nearest.ts';
import { operatorsFor } from './operators.ts';
import { shown } from './shapes.ts';

/** Keys of a leaf besides the one that says what it reads. */
export const LEAF_KEYS = ['operator', 'value'] as const;

export function reportOptionFact(at: Cursor, { find, owner }: Context, what: string): void {
  find.report('option-fact-in-when', at, {
    message: `${what}, but this condition of ${owner} may read the patient only`,
    hint: 'move it to `excludes`, `prefers` or `remarks` of a choice rule',
  });
}

/** What a leaf reads is named by a text. */
export function checkName(name: Cursor, kind: LeafKind, { find, owner }: Context): void {
  if (name.text !== undefined) return;
  const message = `\`${kind}\` in ${owner} must be an id`;
  find.report('wrong-shape', name, { message, expected: 'an id', received: shown(name.value) });
}

/** One leaf: what it reads, and what is asked of it. */
export function checkLeaf(
  node: Cursor,
  kind: 'fact' | 'parameter',
  context: Context,
  options: 'patient' | 'options',
): void {
  const name = node.at(kind);
  checkName(name, kind, context);
  const subject = kind === 'fact' ? factNamed(name, context) : parameterNamed(name, context);
  if (kind === 'fact' && options === 'patient' && subject && context.ofOptions.has(skeleton(name.text!))) {
    reportOptionFact(name, context, `\`${name.text}\` is about an option`);
  }
  checkComparison(node, kind, subject, context);
}

/** What is asked of what a leaf reads: its operator, and its right side. */
export function checkComparison(
  node: Cursor,
  kind: LeafKind,
  subject: Typed | undefined,
  context: Context,
): void {
  const { find, owner } = context;
  const name = node.at(kind);
  const operator = node.at('operator');
  if (!operator.exists) {
    if (find.isMisspelt(node, 'operator')) return;
    const message = `a condition of ${owner} on \`${name.text ?? ''}\` has no \`operator\``;
    find.report('missing-key', node, { message, expected: 'operator' });
    return;
  }
  if (!checkOperator(operator, kind, name.text ?? '', subject?.type, context)) return;
  checkLeafValue(node, kind, subject, context);
}

/** Whether the operator is one of ours and fits the type, so that the value can be judged by it. */
function checkOperator(
  at: Cursor,
  kind: LeafKind,
  subject: string,
  type: string | undefined,
  { find, owner }: Context,
): boolean {
  const operator = at.text ?? '';
  const fitting = operatorsFor(type, kind);
  if (OPERATORS.some((known) => known === operator)) {
    if (fitting === undefined || fitting.includes(operator)) return true;
    const message = `\`${operator}\` in ${owner} does not fit \`${subject}\`, which is of type ${type}`;
    find.report('operator-not-fit', at, { message, expected: fitting.join(', '), received: operator });
  } else if (operator.includes(':')) {
    const message = `the decorated operator \`${operator}\` in ${owner} is refused: a fact is read as it stands`;
    find.report('refused-decorator', at, { message, received: operator });
  } else {
    const message =
      at.text === undefined
        ? `\`operator\` in ${owner} must be a text`
        : `${owner} uses the unknown operator \`${operator}\``;
    const known = fitting ?? OPERATORS;
    find.report('unknown-operator', at, {
      message,
      expected: known.join(', '),
      received: shown(at.value),
      ...didYouMean(operator, known),
    });
  }
  return false;
}
