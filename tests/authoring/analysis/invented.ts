import { type Library, readLibrary } from '@dwellset/authoring';
import { filesOf } from '../fixture.ts';
import { doc, grounds, type Json, rule as ruleOf, set as setOf } from '../invented/documents.ts';

/** `holds('care.count', '>=', 2)`; with a name in the place of the value, a local choice. */
export const holds = (fact: string, sign: string, value?: unknown): Json => ({
  fact,
  operator: SIGNS[sign] ?? sign,
  ...(value === undefined
    ? {}
    : { value: typeof value === 'string' && value.includes('.') ? { parameter: value } : value }),
});
const SIGNS: Readonly<Record<string, string>> = {
  '=': 'equal',
  '!=': 'notEqual',
  '<': 'lessThan',
  '<=': 'lessThanInclusive',
  '>': 'greaterThan',
  '>=': 'greaterThanInclusive',
  has: 'contains',
  lacks: 'doesNotContain',
};

export const all = (...of: readonly Json[]): Json => ({ all: of });
export const any = (...of: readonly Json[]): Json => ({ any: of });
export const not = (of: Json): Json => ({ not: of });

export const pain = holds('care.pain', '=', true);
export const fever = holds('care.fever', '=', true);
export const washed = holds('care.washed', '=', true);
export const count = (sign: string, value: number | string): Json => holds('care.count', sign, value);
export const hours = (sign: string, value: number | string): Json => holds('care.hours', sign, value);
export const bag = (sign: string, value: unknown): Json => holds('care.bag', sign, value);
export const size = (sign: string, value: number): Json => holds('option.size', sign, value);
export const latex = holds('option.latex', '=', true);

/** A rule set in short: what the documents say beside what every small set says. */
export interface Invented {
  readonly set?: Json;
  readonly rules: Readonly<Record<string, Json>>;
  /** Sizes of catheters in stock; those of an even size are latex. */
  readonly sizes?: readonly number[];
  readonly accepted?: readonly Json[];
}

const number = (id: string, rest: Json): Json => ({
  id,
  type: 'number',
  title: id,
  question: `${id}?`,
  step: 1,
  ...rest,
});
const flag = (id: string): Json => ({ id, type: 'boolean', title: id, question: `${id}?` });
const moment = (id: string): Json => ({ id, type: 'date-time', title: id, question: `${id}?` });
const since = (id: string, unit: string, from: string): Json =>
  number(id, {
    unit,
    step: 0.1,
    limits: [0, unit === 'd' ? 10_000 : 240_000],
    from: { elapsed: { from, to: 'asOf' } },
  });

const FACTS: readonly Json[] = [
  ...['care.pain', 'care.fever', 'care.washed'].map(flag),
  number('care.count', { unit: '1', limits: [0, 4] }),
  number('care.more', { unit: '1', limits: [0, 4] }),
  number('care.hours', { unit: 'h', limits: [0, 100] }),
  { id: 'care.bag', type: 'code', codes: 'bags', title: 'bag', question: 'Which bag?' },
  {
    id: 'care.signs',
    type: 'codes',
    codes: 'signs',
    unlisted: 'no',
    title: 'signs',
    question: 'Which signs?',
  },
  moment('care.at'),
  moment('care.end'),
  since('care.hours-in', 'h', 'care.at'),
  since('care.days-in', 'd', 'care.at'),
  number('care.both', { unit: '1', limits: [0, 8], from: { sum: ['care.count', 'care.more'] } }),
  number('care.signs-seen', {
    unit: '1',
    limits: [0, 3],
    from: { countCodes: { of: 'care.signs', in: ['fever', 'pain'] } },
  }),
];

const OPTIONS: readonly Json[] = [
  number('option.size', { unit: '[Ch]', limits: [6, 30] }),
  { id: 'option.latex', type: 'boolean', title: 'Latex', question: 'Is it latex?' },
];

const CHOICE: Json = {
  title: 'Choice',
  cautious: 'neither',
  positions: [],
  local: true,
};

export function invented({ set, rules, sizes, accepted }: Invented): Library {
  const group = (name: string, order: number, facts: readonly Json[]) =>
    doc('facts', { group: name, order, title: name, facts });
  return readLibrary(
    filesOf({
      'facts/codes.json': doc('codes', {
        lists: {
          bags: { day: 'day bag', night: 'night bag', leg: 'leg bag' },
          signs: { fever: 'Fever', pain: 'Pain', smell: 'Smell' },
        },
      }),
      'facts/care.json': group('care', 1, FACTS),
      'facts/option.json': group('option', 2, OPTIONS),
      'choices/dwell.json': doc('choices', {
        id: 'dwell',
        version: '0.1.0',
        title: 'Choices',
        parameters: [
          { ...CHOICE, id: 'care.longest', type: 'number', unit: 'h', step: 1, range: [24, 96], default: 48 },
          { ...CHOICE, id: 'care.strict', type: 'boolean', default: true },
        ],
        tables: [],
      }),
      ...grounds,
      'care/ruleset.json': setOf('care', {
        shape: 'advice',
        rules: Object.keys(rules),
        ...(sizes && { shape: 'choice', stock: ['catheter'] }),
        ...set,
      }),
      ...Object.fromEntries(
        Object.entries(rules).map(([id, rest]) => [`care/${id}.rule.json`, doc('rule', ruleOf(id, rest))]),
      ),
      ...(sizes && {
        'care/stock/catheter.json': doc('stock', {
          of: 'catheter',
          title: 'Catheters',
          options: sizes.map((ch) => ({
            id: `ch-${ch}`,
            title: `${ch} Ch`,
            facts: { 'option.size': { value: ch, unit: '[Ch]' }, 'option.latex': ch % 2 === 0 },
          })),
        }),
      }),
      ...(accepted && { 'accepted/care.json': doc('accepted', { set: 'care', accepted }) }),
    }),
  );
}

/** Advice with a summary of its own. */
export const says = (summary: string, rest: Json = {}): Json => ({
  advice: { summary, indicator: 'warning', ...rest },
});

export const decision = (...ids: readonly string[]): Json => ({
  shape: 'decision',
  conclusions: ids.map((id) => ({ id, title: id })),
});
export const byDefault = (...ids: readonly string[]): Json => ({
  ...decision(...ids),
  defaultConclusion: { id: 'none', title: 'None' },
});
export const checklist: Json = { shape: 'checklist' };
