import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { FactEntry, ParameterEntry } from './entries.ts';

const NOT_RECORDED = 'not recorded';
/** As the evaluator prints bounds of a measured value. */
const OPEN_END = 'more than ';
/** Stands for the widest value of a number that has no limits. */
const WIDEST = 999_999;

/** Longest text that a place of a fact can grow to; infinite for free text. */
export function longestOfFact(fact: FactEntry, context: Context): number {
  return Math.max(NOT_RECORDED.length, longestValue(fact, context));
}

function longestValue(fact: FactEntry, { survey }: Context): number {
  const { entry, limits } = fact;
  switch (fact.type) {
    case 'boolean':
      return longest(['yes', ...entry.at('phrases').entries.map(([, phrase]) => phrase.text ?? '')]);
    case 'number': {
      const places = entry.at('decimals').number ?? placesOf(fact.step);
      const ends = (limits ?? [WIDEST]).map((end) =>
        places === undefined ? String(end) : end.toFixed(places),
      );
      // An open end and two ends are the longest ways to print a bound.
      return Math.max(OPEN_END.length + longest(ends), ' to '.length + longest(ends) * 2);
    }
    case 'code':
      return longest(wordsOf(fact.codes, survey));
    case 'codes':
      return joined(wordsOf(fact.codes, survey));
    case 'date':
      return 'YYYY-MM-DD to YYYY-MM-DD'.length;
    case 'date-time':
      return 'YYYY-MM-DD hh:mm to YYYY-MM-DD hh:mm'.length;
    case 'text':
      return longestCell(entry, survey);
    default:
      return 0;
  }
}

/** A parameter prints its value in force: any that its range or code list allows. */
export function longestOfParameter(
  { type, range, step, codes, entry }: ParameterEntry,
  { survey }: Context,
): number {
  if (type === 'boolean') return 'yes'.length;
  if (type === 'code') return longest(wordsOf(codes, survey));
  if (type === 'codes') return joined(wordsOf(codes, survey));
  const numbers = [entry.at('default').number ?? 0, ...(range ?? [])].map(String);
  const decimals = placesOf(step) ?? 0;
  return longest(numbers.map((text) => text.replace(/\.\d+$/, ''))) + (decimals > 0 ? decimals + 1 : 0);
}

/** A text that comes from a column of a table is as long as its longest cell; any other may be of any length. */
function longestCell(entry: Cursor, survey: Context['survey']): number {
  const lookup = entry.at('from').at('lookup');
  const table = survey.tables.get(skeleton(lookup.at('table').text ?? ''));
  const column = lookup.at('column').text;
  if (table === undefined || column === undefined) return Infinity;
  const cells = table.entry.at('rows').entries.map(([, row]) => row.at(column).at('value').text ?? '');
  return longest([...cells, table.entry.at('otherwise').at(column).text ?? '']);
}

const wordsOf = (list: string | undefined, survey: Context['survey']): readonly string[] => [
  ...(survey.lists.get(list ?? '')?.words.values() ?? []),
];

const longest = (texts: readonly string[]): number =>
  texts.reduce((most, { length }) => Math.max(most, length), 0);
const joined = (texts: readonly string[]): number => texts.join(', ').length;

/** Decimal places of a step such as 0.25. */
function placesOf(step: number | undefined): number | undefined {
  if (step === undefined) return undefined;
  const [, exponent] = String(step).split('e-');
  return exponent === undefined ? (String(step).split('.')[1]?.length ?? 0) : Number(exponent);
}
