import { TIME_UNITS } from '@dwellset/core';
import type { listDerivations } from '../documents/list.ts';
import { checkNodes } from './conditionNodes.ts';
import { type Context, factNamed, sameList } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkResult } from './derivationOperands.ts';
import { described, type FactEntry, unitOf } from './entries.ts';
import { type Fields, fieldNamed, fieldsOf } from './fields.ts';
import { checkComparison, checkName } from './leaves.ts';
import { checkWindow } from './windows.ts';

type Aggregate = keyof typeof listDerivations;

/** Types of field that an aggregate can read; the others take a field of any type, or none. */
const READS: Partial<Record<Aggregate, readonly string[]>> = {
  total: ['number'],
  least: ['number', 'date', 'date-time'],
  greatest: ['number', 'date', 'date-time'],
};

/** Lists whose entries have the time that an aggregate goes by. */
const TIMED: Partial<Record<Aggregate, readonly string[]>> = {
  newest: ['events', 'measured'],
  longestRun: ['measured'],
};

/** An aggregate: its list, its window, its fields, the condition on an entry, and whether the result is the fact's. */
export function checkAggregate(kind: Aggregate, body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  if (kind === 'count') checkResult(fact, ['1'], body, context);
  if (kind === 'longestRun') checkResult(fact, TIME_UNITS, body, context);
  const list = factNamed(body.at('of'), context);
  if (list?.type !== undefined && list.type !== 'list') {
    const message = `${owner} looks at the entries of \`${list.id}\`, which is of type ${list.type} and no list`;
    const received = list.type;
    find.report('derivation-wrong-type', body.at('of'), { message, expected: 'list', received });
    return;
  }
  const timing = list?.entry.at('kind').text;
  const timed = TIMED[kind];
  if (timed !== undefined && timing !== undefined && !timed.includes(timing)) {
    const message = `\`${kind}\` of ${owner} goes by time and does not fit \`${list?.id}\`, whose entries are ${timing}`;
    const expected = timed.join(' or ');
    find.report('window-not-fit', body.at('of'), { message, expected, received: timing });
  }
  if (body.has('within')) checkWindow(body.at('within'), timing, context);
  if (list?.type === undefined || !list.entry.at('item').isObject) return;
  const fields = fieldsOf(list.entry);
  fieldNamed(body.at('distinct'), fields, context);
  const field = fieldNamed(body.at('field'), fields, context);
  if (field?.type !== undefined) checkFieldRead(kind, body, field, fact, context);
  if (body.has('where')) checkWhere(body.at('where'), fields, context);
}

/** What is read of an entry is what comes out. */
function checkFieldRead(
  kind: Aggregate,
  body: Cursor,
  field: FactEntry,
  fact: FactEntry,
  context: Context,
): void {
  const { find, owner } = context;
  const at = body.at('field');
  const types = READS[kind];
  if (types !== undefined && !types.includes(field.type ?? '')) {
    const message = `\`${kind}\` of ${owner} cannot read the field \`${field.id}\` of type ${field.type}`;
    const expected = types.join(' or ');
    find.report('derivation-wrong-type', at, { message, expected, received: field.type });
  } else if (kind === 'total' && (field.limits === undefined || field.limits[0] < 0)) {
    const message = `the field \`${field.id}\` that ${owner} adds up may be negative, so a missing entry could make it less`;
    find.report('constant-outside-limits', at, { message, expected: 'limits from 0' });
  } else if (fact.type !== undefined) checkSame(at, field, fact, context);
}

function checkSame(at: Cursor, field: FactEntry, fact: FactEntry, context: Context): void {
  const { find, owner } = context;
  const [expected, received] = [described(fact), described(field)];
  if (field.type !== fact.type || !sameList(field.codes, fact.codes, context)) {
    const message = `the field \`${field.id}\` is ${received}, but ${owner} is ${expected}`;
    find.report('derivation-wrong-type', at, { message, expected, received });
  } else if (field.type === 'number' && unitOf(field) !== unitOf(fact)) {
    const message = `the field \`${field.id}\` is in \`${unitOf(field)}\`, but ${owner} is in \`${unitOf(fact)}\``;
    const [wanted, found] = [unitOf(fact), unitOf(field)];
    find.report('derivation-wrong-unit', at, { message, expected: wanted, received: found });
  }
}

const KINDS = ['all', 'any', 'not', 'field'];

/** A condition over the fields of one entry, held to what conditions over facts are held to. */
function checkWhere(where: Cursor, fields: Fields, context: Context): void {
  const check = (node: Cursor): void => {
    checkName(node.at('field'), 'field', context);
    const field = fieldNamed(node.at('field'), fields, context);
    checkComparison(node, 'field', field, context);
  };
  checkNodes(where, { kinds: KINDS, leaves: ['field'], check }, context);
}
