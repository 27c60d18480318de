import { checkConstant } from './constants.ts';
import { type Context, parameterNamed, sameList } from './context.ts';
import type { Cursor } from './cursor.ts';
import { described, type ParameterEntry, type Typed, unitOf } from './entries.ts';
import { takesList, takesNothing } from './operators.ts';
import { shown } from './shapes.ts';
import { isMultiple } from './steps.ts';

/** The key that says what a leaf reads; a field is one of an entry of a list. */
export type LeafKind = 'fact' | 'parameter' | 'field';

/** The right side of a leaf against the type of its left side and its operator. */
export function checkLeafValue(
  node: Cursor,
  kind: LeafKind,
  subject: Typed | undefined,
  context: Context,
): void {
  const { find, owner } = context;
  const operator = node.at('operator').text ?? '';
  const name = node.at(kind).text ?? '';
  const value = node.at('value');
  if (takesNothing(operator)) {
    if (!value.exists) return;
    const message = `\`${operator}\` on \`${name}\` in ${owner} takes no \`value\``;
    find.report('value-not-taken', value, { part: 'key', message });
  } else if (!value.exists) {
    if (find.isMisspelt(node, 'value')) return;
    const message = `\`${operator}\` on \`${name}\` in ${owner} has no \`value\``;
    find.report('missing-key', node, { message, expected: 'value' });
  } else if (value.isObject) checkReference(value, operator, subject, name, context);
  else if (subject?.type !== undefined) checkConstants(value, operator, subject, name, context);
}

function checkConstants(
  value: Cursor,
  operator: string,
  subject: Typed,
  name: string,
  context: Context,
): void {
  const { find, owner } = context;
  if (!takesList(operator)) {
    // The right side of `contains` is one code.
    const single = subject.type === 'codes' ? { ...subject, type: 'code' } : subject;
    checkConstant(value, single, name, context);
  } else if (!value.isList) {
    const message = `\`${operator}\` on \`${name}\` in ${owner} needs a list of codes`;
    find.report('wrong-shape', value, { message, expected: 'a list of codes', received: shown(value.value) });
  } else if (value.items.length === 0) {
    const message = `the list of \`${operator}\` on \`${name}\` in ${owner} is empty, so it would always be the same`;
    find.report('empty-group', value, { message, expected: 'at least one code' });
  } else for (const item of value.items) checkConstant(item, { ...subject, type: 'code' }, name, context);
}

function checkReference(
  value: Cursor,
  operator: string,
  subject: Typed | undefined,
  name: string,
  context: Context,
): void {
  const { find, owner } = context;
  const reference = value.at('parameter');
  if (reference.text === undefined || value.keys.length !== 1) {
    const message = `the value of \`${operator}\` on \`${name}\` in ${owner} must be a constant or one \`parameter\``;
    find.report('wrong-shape', value, {
      message,
      expected: 'a constant or a parameter',
      received: shown(value.value),
    });
    return;
  }
  const parameter = parameterNamed(reference, context);
  if (parameter?.type === undefined || subject?.type === undefined) return;
  const wanted = takesList(operator) ? 'codes' : subject.type === 'codes' ? 'code' : subject.type;
  if (parameter.type !== wanted || !sameList(parameter.codes, subject.codes, context)) {
    find.report('parameter-not-fit', reference, {
      message: `the parameter \`${parameter.id}\` in ${owner} is ${described(parameter)} and does not fit \`${operator}\` on \`${name}\``,
      expected: described({ ...subject, type: wanted, unit: undefined }),
      received: described(parameter),
    });
  } else if (wanted === 'number') checkNumberParameter(reference, parameter, subject, name, context);
}

function checkNumberParameter(
  at: Cursor,
  parameter: ParameterEntry,
  subject: Typed,
  name: string,
  { find, owner }: Context,
): void {
  const [mine, theirs] = [unitOf(parameter), unitOf(subject)];
  if (mine !== theirs) {
    const message = `the parameter \`${parameter.id}\` in ${owner} is in \`${mine}\`, but \`${name}\` is in \`${theirs}\``;
    find.report('unit-mismatch', at, { message, expected: theirs, received: mine });
    return;
  }
  if (parameter.step !== undefined && !isMultiple(parameter.step, subject.step)) {
    const message = `the step ${parameter.step} of the parameter \`${parameter.id}\` in ${owner} is no multiple of the step ${subject.step} of \`${name}\``;
    find.report('step-mismatch', at, {
      message,
      expected: String(subject.step),
      received: String(parameter.step),
    });
  }
  const { limits } = subject;
  const [low, high] = parameter.range ?? [];
  if (!limits || low === undefined || high === undefined || (low >= limits[0] && high <= limits[1])) return;
  const message = `the range ${low} to ${high} of the parameter \`${parameter.id}\` in ${owner} leaves the limits of \`${name}\``;
  find.report('constant-outside-limits', at, {
    message,
    expected: `${limits[0]} to ${limits[1]}`,
    received: `${low} to ${high}`,
  });
}
