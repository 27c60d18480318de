import { type Library, readLibrary } from '@dwellset/authoring';
import { filesOf } from '../fixture.ts';
import { doc, grounds, type Json, rule, set } from './documents.ts';

export const yes = (fact: string): Json => ({ fact, operator: 'equal', value: true });

const flag = (id: string): Json => ({ id, type: 'boolean', title: id, question: `${id}?` });
const hours = { type: 'number', unit: 'h', title: 'hours', question: 'How many hours?' };

/** A library of one set with one rule, `one`, and a vignette of it for each record of facts: `v0`, `v1` and so on. */
export function small(given: {
  readonly set?: Json;
  readonly rule: Json;
  readonly vignettes: readonly Json[];
}): Library {
  const documents = {
    'facts/codes.json': doc('codes', {
      lists: { kinds: { day: 'day bag', night: 'night bag', leg: 'leg bag' } },
    }),
    'choices/dwell.json': doc('choices', {
      id: 'dwell',
      version: '0.1.0',
      title: 'Choices',
      parameters: [
        {
          id: 'care.strict',
          type: 'boolean',
          title: 'Strict',
          default: true,
          cautious: 'neither',
          positions: [],
          local: true,
        },
        {
          id: 'care.longest',
          type: 'number',
          unit: 'h',
          step: 1,
          range: [24, 96],
          title: 'Longest',
          default: 48,
          cautious: 'lower',
          positions: [],
          local: true,
        },
      ],
      tables: [],
    }),
    ...grounds,
  };
  const facts = [
    flag('care.pain'),
    flag('care.fever'),
    flag('care.washed'),
    { ...hours, id: 'care.hours', step: 1, limits: [0, 1000] },
    {
      id: 'care.count',
      type: 'number',
      unit: '1',
      step: 1,
      limits: [0, 4],
      title: 'count',
      question: 'How many?',
    },
    { id: 'care.kind', type: 'code', codes: 'kinds', title: 'kind', question: 'Which kind?' },
    { id: 'care.at', type: 'date-time', title: 'moment', question: 'When?' },
    {
      ...hours,
      id: 'care.since',
      limits: [0, 1000],
      from: { elapsed: { from: 'care.at', to: 'asOf' } },
    },
  ];
  return readLibrary(
    filesOf({
      ...documents,
      'facts/care.json': doc('facts', { group: 'care', order: 1, title: 'Care', facts }),
      'care/ruleset.json': set('care', { shape: 'advice', rules: ['one'], ...given.set }),
      'care/one.rule.json': doc('rule', rule('one', given.rule)),
      'care/one.vignettes.json': doc('vignettes', {
        base: { asOf: '2030-03-01T12:00:00Z', timeZone: 'Europe/London', facts: {} },
        vignettes: given.vignettes.map((stated, index) => ({
          id: `v${index}`,
          title: `patient ${index}`,
          facts: stated,
          expect: { rules: {} },
        })),
      }),
    }),
  );
}
