import type { CellValue, Condition, Constant, Release, Table } from '@dwellset/core';
import { conditionSentence } from '../conditions/sentence.ts';
import { codeWords, valueWords } from '../values/value.ts';
import { listed, lowerFirst, type Words, wordsOf } from '../words.ts';
import type { ComparisonShown } from './shown.ts';
import { bothWords, type SideNames } from './sideNames.ts';

type Item = Pick<ComparisonShown['items'][number], 'kind' | 'id'>;
type Field = ComparisonShown['items'][number]['fields'][number];

/** A local choice by its title: a parameter, or one cell of a table as `table/row/column`. */
export function choiceTitle(path: string, release: Release | undefined): string {
  const [id, row, column] = path.split('/');
  const parameter = release?.parameters.find((one) => one.id === id);
  if (parameter) return `${lowerFirst(parameter.title)} (${path})`;
  const table = release?.tables.find((one) => one.id === id);
  if (table === undefined || release === undefined) return path;
  const cell =
    row === undefined
      ? ''
      : `, ${codeWords(row, table.key, wordsOf([release]))}${column ? `, ${column}` : ''}`;
  return `${lowerFirst(table.title)}${cell} (${path})`;
}

/** A value of such a choice, with its unit or in the words of its code list. */
export function choiceValue(path: string, value: unknown, release: Release | undefined): string {
  if (value === null) return 'no entry';
  if (value === undefined) return 'nothing';
  const [id, , column] = path.split('/');
  const described =
    release?.parameters.find((one) => one.id === id) ??
    columnOf(
      release?.tables.find((one) => one.id === id),
      column,
    );
  return valueWords(value as Constant, described, release ? wordsOf([release]) : NO_WORDS);
}

const columnOf = (table: Table | undefined, column: string | undefined) =>
  table?.columns[column ?? ''] ?? undefined;

const NO_WORDS: Words = wordsOf([]);

/** Keys whose values are conditions, said as sentences. */
const CONDITIONS = new Set(['when', 'expect', 'scope', 'condition', 'excludes', 'remarks']);

/** Keys as a reader would call them. */
const NAMES: Readonly<Record<string, string>> = {
  value: 'in force',
  when: 'applies when',
  expect: 'expects',
  'switched off': 'switched off',
  overrideReasons: 'reasons for not following it',
};

/** Values that a reader would skip if they stood there as JSON. */
const LONGEST = 300;

const quoted = (text: string): string => `"${text}"`;

function fieldValue({ field }: Field, value: unknown, item: Item, release: Release | undefined): string {
  if (value === undefined) return 'nothing';
  if (CONDITIONS.has(field) && release) {
    // A condition that this release cannot word, since its facts are gone, stays as it is written.
    try {
      return lowerFirst(conditionSentence(value as Condition, release).replace(/\.$/, ''));
    } catch {
      return JSON.stringify(value);
    }
  }
  if (item.kind === 'local choice' && ['value', 'default'].includes(field))
    return choiceValue(item.id, value, release);
  if (item.kind === 'table' && field.includes('/'))
    return choiceValue(`${item.id}/${field}`, value as CellValue, release);
  if (field === 'local') {
    const { change, reason } = value as { change: string; reason: string };
    return `${change.replaceAll('-', ' ')} (${reason.replace(/\.$/, '')})`;
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const text = typeof value === 'string' ? quoted(value) : JSON.stringify(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)} …` : text;
}

/** One entry of a list as a reader would call it. */
function entryWords(entry: unknown, item: Item, release: Release | undefined): string {
  if (typeof entry === 'string') return entry.includes(' ') ? quoted(entry) : entry;
  if (typeof entry !== 'object' || entry === null) return String(entry);
  const { value, evidence, label, display } = entry as Readonly<Record<string, unknown>>;
  if (value !== undefined && Array.isArray(evidence)) {
    return `${choiceValue(item.id, value, release)} (${evidence.join(', ')})`;
  }
  const name = label ?? display;
  return typeof name === 'string' ? quoted(name) : JSON.stringify(entry);
}

/** What stands in one list and not in the other; a text counts as a list of one. */
function listWords(
  field: Field,
  item: Item,
  sides: readonly [Release | undefined, Release | undefined],
  names: SideNames,
) {
  const entries = (value: unknown, release: Release | undefined): string[] =>
    (Array.isArray(value) ? value : value === undefined ? [] : [value]).map((one) =>
      entryWords(one, item, release),
    );
  const [from, to] = [entries(field.from, sides[0]), entries(field.to, sides[1])];
  const gone = from.filter((one) => !to.includes(one));
  const come = to.filter((one) => !from.includes(one));
  const here = (side: string, end: string) => (names.inTime ? end : `only at ${side}`);
  return [
    ...(gone.length === 0 ? [] : [`${here(names.before, 'left out')}: ${listed(gone, 'and')}`]),
    ...(come.length === 0 ? [] : [`${here(names.after, 'added')}: ${listed(come, 'and')}`]),
  ].join('; ');
}

/** One part of an item that reads otherwise; empty where only the order of a list is another. */
export function fieldWords(
  field: Field,
  item: Item,
  sides: readonly [before: Release | undefined, after: Release | undefined],
  names: SideNames,
): string {
  const key = field.field.replace(/^advice\./, '');
  const cell = item.kind === 'table' && key.includes('/');
  const name = cell
    ? choiceTitle(`${item.id}/${key}`, sides[1] ?? sides[0])
    : (NAMES[key] ?? key.replaceAll('-', ' '));
  if ([field.from, field.to].some(Array.isArray) && key !== 'order of rules' && !isRange(field)) {
    const said = listWords(field, item, sides, names);
    return said === '' ? '' : `${name}: ${said}`;
  }
  const [from, to] = [
    fieldValue(field, field.from, item, sides[0]),
    fieldValue(field, field.to, item, sides[1]),
  ];
  return `${name}: ${bothWords(from, to, names)}`;
}

const isRange = ({ field }: Field): boolean =>
  ['range', 'limits', 'usual', 'value', 'default', 'codes'].includes(field);
