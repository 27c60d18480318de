import { type Derivation, type Fact, kindOf } from '@dwellset/core';
import { checkConstant } from './constants.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { type FactEntry, readFact } from './entries.ts';
import { didYouMean } from './nearest.ts';
import { operatorsFor, takesList, takesNothing } from './operators.ts';

/** Fields of time that each kind of list has. */
const TIMES: Readonly<Record<string, number>> = { events: 1, measured: 2, things: 0 };
const MOST_FIELDS = 8;

/** The fields of a list as facts of their own; the id of a field is its key. */
export const fieldsOf = (entry: Cursor): ReadonlyMap<string, FactEntry> =>
  new Map(
    entry
      .at('item')
      .entries.map(([id, field]) => [id, { ...readFact(field), id, derived: field.has('from') }]),
  );

/** A list: how its entries lie in time, and fields that fit. */
export function checkList({ entry }: FactEntry, context: Context): void {
  const { find, owner } = context;
  const fields = fieldsOf(entry);
  for (const key of ['kind', 'item']) {
    if (entry.has(key) || find.isMisspelt(entry, key)) continue;
    find.report('missing-key', entry, {
      message: `${owner} is a list and needs the key \`${key}\``,
      expected: key,
    });
  }
  if (fields.size > MOST_FIELDS) {
    const message = `the entries of ${owner} have ${fields.size} fields, but at most ${MOST_FIELDS} are read`;
    find.report('wrong-shape', entry.at('item'), { message, expected: `at most ${MOST_FIELDS} fields` });
  }
  const wanted = TIMES[entry.at('kind').text ?? ''];
  const times = entry.at('at').items;
  if (wanted !== undefined && times.length !== wanted) {
    const message = `${owner} names ${times.length} fields of time, but its kind has ${wanted}`;
    find.report('wrong-shape', entry.has('at') ? entry.at('at') : entry.at('kind'), {
      message,
      expected: String(wanted),
    });
  }
  for (const at of times) {
    const field = fieldNamed(at, fields, context);
    if (field === undefined || field.type === 'date-time') continue;
    const message = `the field \`${field.id}\` of ${owner} is of type ${field.type ?? 'unknown'}, but a time is a date-time`;
    find.report('derivation-wrong-type', at, { message, expected: 'date-time', received: field.type });
  }
}

function fieldNamed(
  at: Cursor,
  fields: ReadonlyMap<string, FactEntry>,
  { find, owner }: Context,
): FactEntry | undefined {
  if (at.text === undefined) return undefined;
  const field = fields.get(at.text);
  if (field !== undefined) return field;
  find.report('unknown-field', at, {
    message: `the entries that ${owner} reads have no field \`${at.text}\``,
    expected: [...fields.keys()].join(', '),
    received: at.text,
    ...didYouMean(at.text, fields.keys()),
  });
  return undefined;
}

/** An aggregate: its list, its fields, the condition on an entry, and whether what comes out is of the fact's type. */
export function checkAggregate(body: Cursor, fact: FactEntry, context: Context): void {
  const { find, owner, facts } = context;
  const list = facts.get(body.at('of').text ?? '');
  if (list === undefined || list.type === undefined) {
    const message = `${owner} looks at \`${body.at('of').text ?? ''}\`, which is no fact`;
    if (list === undefined)
      find.report('unknown-fact', body.at('of'), {
        message,
        ...didYouMean(body.at('of').text ?? '', facts.keys()),
      });
    return;
  }
  const fields = list.type === 'list' ? fieldsOf(list.entry) : new Map<string, FactEntry>();
  if (list.type === 'list') {
    for (const key of ['field', 'distinct']) fieldNamed(body.at(key), fields, context);
    if (body.has('where')) checkFieldCondition(body.at('where'), fields, context);
  }
  const entries = (id: string): Fact | undefined => facts.get(id)?.entry.value as Fact | undefined;
  const from = fact.entry.at('from').value as Derivation;
  const dictionary = { fact: entries, parameter: () => undefined, table: () => undefined };
  for (const { at, expected, received } of kindOf(from).check(from, fact.entry.value as Fact, dictionary)) {
    const part = at
      .split('/')
      .slice(2)
      .reduce((cursor, key) => cursor.at(key), body);
    const message = `${owner} does not fit what it looks at: expected ${expected}`;
    find.report('derivation-wrong-type', part, {
      message,
      part: part === body ? 'key' : 'head',
      expected,
      received,
    });
  }
}

/** A condition over the fields of one entry, node by node. */
function checkFieldCondition(node: Cursor, fields: ReadonlyMap<string, FactEntry>, context: Context): void {
  for (const group of ['all', 'any'])
    for (const one of node.at(group).items) checkFieldCondition(one, fields, context);
  if (node.has('not')) checkFieldCondition(node.at('not'), fields, context);
  const field = fieldNamed(node.at('field'), fields, context);
  const operator = node.at('operator').text;
  if (field?.type === undefined || operator === undefined) return;
  const fitting = operatorsFor(field.type, 'fact') ?? [];
  if (!fitting.includes(operator)) {
    const message = `\`${operator}\` does not fit the field \`${field.id}\` of type ${field.type} that ${context.owner} reads`;
    context.find.report('operator-not-fit', node.at('operator'), {
      message,
      expected: fitting.join(', '),
      received: operator,
    });
    return;
  }
  const value = node.at('value');
  if (takesNothing(operator) || !value.exists || value.isObject) return;
  if (takesList(operator)) for (const one of value.items) checkConstant(one, field, field.id, context);
  else checkConstant(value, field, field.id, context);
}
