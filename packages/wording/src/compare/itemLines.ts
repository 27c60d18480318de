import type { Condition, Release } from '@dwellset/core';
import { conditionSentence } from '../conditions/sentence.ts';
import { clean, wrap } from '../layout.ts';
import { amountWords } from '../values/units.ts';
import { lowerFirst } from '../words.ts';
import type { ComparisonShown } from './shown.ts';

type Item = ComparisonShown['items'][number];
type Field = Item['fields'][number];

/** Keys whose values are conditions, said as sentences. */
const CONDITIONS = new Set(['when', 'expect', 'scope', 'condition', 'excludes', 'remarks']);

/** Values that a reader would skip if they stood there as JSON. */
const LONGEST = 300;

function fieldValue(field: Field, value: unknown, item: Item, release: Release | undefined): string {
  if (value === undefined) return 'nothing';
  if (CONDITIONS.has(field.field) && release) {
    // A condition that this release cannot word, since its facts are gone, stays as it is written.
    try {
      return lowerFirst(conditionSentence(value as Condition, release).replace(/\.$/, ''));
    } catch {
      return JSON.stringify(value);
    }
  }
  const parameter = release?.parameters.find(({ id }) => id === item.id);
  if (item.kind === 'local choice' && typeof value === 'number') return amountWords(value, parameter);
  const text = typeof value === 'string' ? `"${value}"` : JSON.stringify(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)} …` : text;
}

/** What reads otherwise in one item: its name, then each part as it was and as it is. */
export function itemLines(
  item: Item,
  before: Release | undefined,
  after: Release | undefined,
  width: number,
): string[] {
  const head = `${item.kind} ${item.id}: ${item.change}`;
  if (item.change !== 'changed') return wrap(head, width, '  ', '     ');
  return [
    ...wrap(`${item.kind} ${item.id}`, width, '  ', '     '),
    ...item.fields.flatMap((field) => {
      const name = clean(field.field.replace(/^advice\./, '').replaceAll('-', ' '));
      const [from, to] = [
        fieldValue(field, field.from, item, before),
        fieldValue(field, field.to, item, after),
      ];
      return wrap(`${name}: was ${from}; is ${to}`, width, '     ', '       ');
    }),
  ];
}
