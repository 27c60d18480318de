import type {
  Condition,
  Derivation,
  Fact,
  FieldCondition,
  Items,
  Operand,
  ParameterReference,
  Window,
} from '@dwellset/core';
import { clauseWords } from '../conditions/sentence.ts';
import { factTitle, listed, lowerFirst, type Words } from '../words.ts';
import { amountWords, numberWords, unitWords } from './units.ts';
import { codeWords } from './value.ts';

const choiceTitle = ({ parameter }: ParameterReference, words: Words): string => {
  const title = words.parameters.get(parameter)?.title;
  return title === undefined ? parameter : lowerFirst(title);
};

function operandWords(operand: Operand, words: Words): string {
  if (typeof operand === 'string') {
    return operand === 'asOf' ? 'the moment of the case' : factTitle(operand, words);
  }
  return 'parameter' in operand ? choiceTitle(operand, words) : amountWords(operand.value, operand);
}

const all = (operands: readonly Operand[], words: Words, by: string): string =>
  operands.map((operand) => operandWords(operand, words)).join(` ${by} `);

const anyOf = (facts: readonly string[], words: Words): string =>
  listed(
    facts.map((fact) => factTitle(fact, words)),
    'and',
  );

/** The fields of an item are worded like facts. */
function asCondition(condition: FieldCondition): Condition {
  if ('all' in condition) return { all: condition.all.map(asCondition) };
  if ('any' in condition) return { any: condition.any.map(asCondition) };
  if ('not' in condition) return { not: asCondition(condition.not) };
  const { field, ...leaf } = condition;
  return { fact: field, ...leaf };
}

function fieldTitle(list: string, field: string, words: Words): string {
  const title = words.facts.get(list)?.item?.[field]?.title;
  return title === undefined ? field : lowerFirst(title);
}

function withinWords({ since, last, newest, until }: Window, words: Words): string {
  const parts = [
    ...(newest === undefined ? [] : [`the newest ${newest}`]),
    ...(last === undefined
      ? []
      : [`the last ${'parameter' in last ? choiceTitle(last, words) : amountWords(last.value, last)}`]),
    ...(since === undefined ? [] : [`since ${factTitle(since, words)}`]),
    ...(until === 'newest' ? ['up to the newest entry'] : []),
  ];
  return parts.length === 0 ? '' : ` (${parts.join(', ')})`;
}

function itemsWords({ of, where, within }: Items, words: Words): string {
  const fields = Object.entries(words.facts.get(of)?.item ?? {});
  const named: Words = {
    ...words,
    facts: new Map(fields.map(([id, field]) => [id, { id, question: field.title, ...field } as Fact])),
  };
  const only = where === undefined ? '' : ` where ${clauseWords(asCondition(where), named)}`;
  return factTitle(of, words) + only + (within === undefined ? '' : withinWords(within, words));
}

function bandWords(
  { of, cuts, codes, atCut }: Extract<Derivation, { band: unknown }>['band'],
  fact: Fact,
  words: Words,
): string {
  const measured = words.facts.get(of);
  const at = (cut: number | undefined) => (cut === undefined ? '' : numberWords(cut, measured));
  const bands = codes.map((code, index) => {
    const [low, high] = [at(cuts[index - 1]), at(cuts[index])];
    const range = low === '' ? `up to ${high}` : high === '' ? `from ${low}` : `${low} to ${high}`;
    return `${codeWords(code, fact.codes, words)} ${range}`;
  });
  const side = typeof atCut === 'object' ? choiceTitle(atCut, words) : `the ${atCut ?? 'upper'} band`;
  const unit = unitWords(measured?.unit);
  return `the band of ${factTitle(of, words)}${unit === '' ? '' : `, in ${unit}`}: ${bands.join(', ')}; a value on the line falls into ${side}`;
}

/** How a fact follows from others, as the rest of "computed unless supplied:". */
export function derivationWords(fact: Fact, from: Derivation, words: Words): string {
  if ('elapsed' in from || 'calendarDays' in from) {
    const { from: start, to } = 'elapsed' in from ? from.elapsed : from.calendarDays;
    const what = 'elapsed' in from ? 'time' : 'calendar days';
    return `${what} from ${operandWords(start, words)} to ${operandWords(to, words)}`;
  }
  if ('localHour' in from) return `hour on the ward's clock of ${operandWords(from.localHour.at, words)}`;
  if ('difference' in from) return all(from.difference, words, 'less');
  if ('sum' in from) return all(from.sum, words, 'plus');
  if ('product' in from) return all(from.product, words, 'times');
  if ('ratio' in from) return all(from.ratio, words, 'divided by');
  if ('lowest' in from) return `the lowest of ${anyOf(from.lowest, words)}`;
  if ('highest' in from) return `the highest of ${anyOf(from.highest, words)}`;
  if ('firstRecorded' in from)
    return `the first that is recorded of ${anyOf(from.firstRecorded, words)}, in this order`;
  if ('lookup' in from) {
    const { table, key, column } = from.lookup;
    const title = words.tables.get(table)?.title;
    return `${column} for ${factTitle(key, words)} in the table "${title ?? table}"`;
  }
  if ('band' in from) return bandWords(from.band, fact, words);
  if ('conclusion' in from)
    return `the conclusion of the rule set "${words.sets.get(from.conclusion) ?? from.conclusion}"`;
  if ('countCodes' in from) {
    const { of, in: among } = from.countCodes;
    const codes =
      'parameter' in among
        ? choiceTitle(among, words)
        : listed(
            among.map((code) => `"${codeWords(code, words.facts.get(of)?.codes, words)}"`),
            'and',
          );
    return `how many of ${factTitle(of, words)} are among ${codes}`;
  }
  if ('count' in from) {
    const { distinct } = from.count;
    const what =
      distinct === undefined ? 'entries' : `different ${fieldTitle(from.count.of, distinct, words)}`;
    return `number of ${what} in ${itemsWords(from.count, words)}`;
  }
  if ('longestRun' in from) return `longest run of entries in ${itemsWords(from.longestRun, words)}`;
  const [what, items] =
    'total' in from
      ? (['total', from.total] as const)
      : 'least' in from
        ? (['least', from.least] as const)
        : 'newest' in from
          ? (['newest', from.newest] as const)
          : ([
              from.greatest.rank === undefined ? 'greatest' : `greatest but ${from.greatest.rank - 1}`,
              from.greatest,
            ] as const);
  return `${what} ${fieldTitle(items.of, items.field, words)} in ${itemsWords(items, words)}`;
}
