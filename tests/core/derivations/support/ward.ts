import type { Derivation, Fact, Table } from '@dwellset/core';
import { fact, type Parts, parameter } from './read.ts';

/** An invented dictionary in which every kind of derivation occurs, on its own and on top of others. */
const number = (id: string, unit: string, parts: Partial<Fact> = {}): Fact =>
  fact(id, { type: 'number', unit, ...parts });
const derived = (id: string, type: Fact['type'], from: Derivation, parts: Partial<Fact> = {}): Fact =>
  fact(id, { type, from, ...parts });

const BASE: readonly Fact[] = [
  fact('catheter.inserted-at', { type: 'date-time' }),
  fact('catheter.removed-at', { type: 'date-time', notBefore: 'catheter.inserted-at' }),
  fact('review.last-at', { type: 'date-time', staleAfter: 'P7D' }),
  fact('pack.use-by', { type: 'date', monthMeans: 'last-day' }),
  fact('pack.made-on', { type: 'date' }),
  number('urine.volume', 'mL', { step: 1, limits: [0, 20] }),
  number('urine.residual', 'mL', { step: 0.5, limits: [0, 20], usual: [0, 15] }),
  number('urine.loose', 'mL'),
  number('urine.spell', 'h', { step: 0.25, limits: [0, 10] }),
  number('patient.weight', 'kg', { limits: [0, 24] }),
  number('patient.share', '1', { step: 0.1, limits: [0, 1] }),
  number('catheter.label-dwell', 'd', { step: 1, limits: [1, 24] }),
  fact('catheter.material', { type: 'code', codes: 'materials' }),
  fact('catheter.kind', { type: 'code', codes: 'kinds' }),
  fact('catheter.labelled-material', { type: 'code', codes: 'materials' }),
  fact('infection.symptoms', { type: 'codes', codes: 'symptoms', unlisted: 'no' }),
  fact('infection.noted', { type: 'codes', codes: 'symptoms' }),
  fact('allergy.latex', { type: 'boolean' }),
  fact('allergy.latex-asked', { type: 'boolean' }),
  fact('record.lot', { type: 'text' }),
];

const DERIVED: readonly Fact[] = [
  derived(
    'catheter.hours-in',
    'number',
    { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
    { unit: 'h', step: 0.1, limits: [0, 900] },
  ),
  derived(
    'catheter.time-in',
    'number',
    { elapsed: { from: 'catheter.inserted-at', to: 'catheter.removed-at' } },
    { unit: 'd' },
  ),
  derived(
    'catheter.days-in',
    'number',
    { calendarDays: { from: 'catheter.inserted-at', to: 'asOf' } },
    { unit: 'd', limits: [0, 40] },
  ),
  derived('pack.days-left', 'number', { calendarDays: { from: 'asOf', to: 'pack.use-by' } }, { unit: 'd' }),
  derived(
    'pack.shelf-days',
    'number',
    { calendarDays: { from: 'pack.made-on', to: 'pack.use-by' } },
    { unit: 'd', limits: [-5, 5] },
  ),
  derived('now.hour', 'number', { localHour: { at: 'asOf' } }, { unit: 'h' }),
  derived(
    'catheter.insertion-hour',
    'number',
    { localHour: { at: 'catheter.inserted-at' } },
    { unit: 'h', step: 1, limits: [0, 24] },
  ),
  derived(
    'urine.change',
    'number',
    { difference: ['urine.volume', 'urine.residual'] },
    { unit: 'mL', step: 1 },
  ),
  derived(
    'urine.above',
    'number',
    { difference: ['urine.volume', { parameter: 'choice.volume' }] },
    { unit: 'mL', limits: [0, 12] },
  ),
  derived('urine.loose-change', 'number', { difference: ['urine.loose', 'urine.volume'] }, { unit: 'mL' }),
  derived(
    'urine.total',
    'number',
    { sum: ['urine.volume', 'urine.residual', { value: 2.5, unit: 'mL' }] },
    { unit: 'mL', limits: [0, 25] },
  ),
  derived(
    'urine.loose-total',
    'number',
    { sum: ['urine.loose', 'urine.residual'] },
    { unit: 'mL', step: 0.25 },
  ),
  derived(
    'urine.shared',
    'number',
    { product: ['urine.volume', 'patient.share'] },
    { unit: 'mL', step: 0.1, limits: [0, 20] },
  ),
  derived(
    'urine.load',
    'number',
    { product: ['urine.volume', 'urine.spell', 'patient.share'] },
    { unit: 'mL.h' },
  ),
  derived(
    'urine.rate',
    'number',
    { ratio: ['urine.volume', 'patient.weight', 'urine.spell'] },
    { unit: 'mL/kg/h', step: 0.01, limits: [0, 5] },
  ),
  derived('urine.hourly', 'number', { ratio: ['urine.volume', { value: 6, unit: 'h' }] }, { unit: 'mL/h' }),
  derived('urine.hourly-share', 'number', { product: ['urine.rate', 'patient.share'] }, { unit: 'mL/kg/h' }),
  derived(
    'catheter.table-dwell',
    'number',
    { lookup: { table: 'dwell.longest', key: 'catheter.material', column: 'days' } },
    { unit: 'd', step: 1, limits: [1, 24] },
  ),
  derived(
    'catheter.named-dwell',
    'number',
    { lookup: { table: 'dwell.longest', key: 'catheter.any-material', column: 'days' } },
    { unit: 'd', limits: [6, 100] },
  ),
  derived('catheter.has-latex', 'boolean', {
    lookup: { table: 'dwell.longest', key: 'catheter.material', column: 'latex' },
  }),
  derived(
    'catheter.successor',
    'code',
    { lookup: { table: 'dwell.longest', key: 'catheter.material', column: 'successor' } },
    { codes: 'materials' },
  ),
  derived(
    'catheter.next-successor',
    'code',
    { lookup: { table: 'dwell.longest', key: 'catheter.successor', column: 'successor' } },
    { codes: 'materials' },
  ),
  derived('catheter.advice', 'text', {
    lookup: { table: 'dwell.longest', key: 'catheter.material', column: 'words' },
  }),
  derived(
    'catheter.kind-days',
    'number',
    { lookup: { table: 'kinds.usual', key: 'catheter.kind', column: 'days' } },
    { unit: 'd', step: 5 },
  ),
  derived(
    'catheter.shortest-dwell',
    'number',
    { lowest: ['catheter.label-dwell', 'catheter.table-dwell'] },
    { unit: 'd', limits: [1, 24] },
  ),
  derived(
    'catheter.tables-dwell',
    'number',
    { highest: ['catheter.table-dwell', 'catheter.named-dwell'] },
    { unit: 'd', step: 10 },
  ),
  derived(
    'catheter.longest-dwell',
    'number',
    { firstRecorded: ['catheter.label-dwell', 'catheter.table-dwell'] },
    { unit: 'd', limits: [1, 24] },
  ),
  derived(
    'catheter.any-dwell',
    'number',
    { firstRecorded: ['catheter.table-dwell', 'catheter.named-dwell', 'catheter.label-dwell'] },
    { unit: 'd' },
  ),
  derived(
    'catheter.any-material',
    'code',
    { firstRecorded: ['catheter.labelled-material', 'catheter.material', 'catheter.successor'] },
    { codes: 'materials' },
  ),
  derived('review.newest-at', 'date-time', { highest: ['review.last-at', 'catheter.inserted-at'] }),
  derived('review.first-at', 'date-time', {
    firstRecorded: ['review.last-at', 'catheter.removed-at', 'catheter.inserted-at'],
  }),
  derived('review.oldest-at', 'date-time', { lowest: ['review.newest-at', 'review.first-at'] }),
  derived('review.oldest-hour', 'number', { localHour: { at: 'review.oldest-at' } }, { unit: 'h' }),
  derived(
    'review.days-since',
    'number',
    { calendarDays: { from: 'review.oldest-at', to: 'review.newest-at' } },
    { unit: 'd' },
  ),
  derived('pack.earliest', 'date', { lowest: ['pack.use-by', 'pack.made-on'] }),
  derived('pack.first', 'date', { firstRecorded: ['pack.made-on', 'pack.use-by'] }),
  derived(
    'urine.grade',
    'code',
    { band: { of: 'urine.volume', cuts: [5, 12], codes: ['low', 'mid', 'high'] } },
    { codes: 'grades' },
  ),
  derived(
    'urine.change-grade',
    'code',
    {
      band: {
        of: 'urine.change',
        cuts: [-2, 0, 3],
        codes: ['high', 'low', 'mid', 'high'],
        atCut: { parameter: 'choice.side' },
      },
    },
    { codes: 'grades' },
  ),
  derived(
    'catheter.dwell-grade',
    'code',
    { band: { of: 'catheter.table-dwell', cuts: [7], codes: ['low', 'high'], atCut: 'lower' } },
    { codes: 'grades' },
  ),
  derived(
    'infection.signs',
    'codes',
    { firstRecorded: ['infection.symptoms', 'infection.noted'] },
    { codes: 'symptoms' },
  ),
  derived(
    'infection.count',
    'number',
    { countCodes: { of: 'infection.symptoms', in: { parameter: 'choice.signs' } } },
    { unit: '1' },
  ),
  derived(
    'infection.all-count',
    'number',
    { countCodes: { of: 'infection.signs', in: ['fever', 'rigors', 'pain', 'fever'] } },
    { unit: '1', limits: [0, 3] },
  ),
  derived('allergy.any-latex', 'boolean', {
    firstRecorded: ['allergy.latex-asked', 'allergy.latex', 'catheter.has-latex'],
  }),
];

const TABLES: readonly Table[] = [
  {
    id: 'dwell.longest',
    key: 'materials',
    title: 'Longest dwell',
    columns: {
      days: { type: 'number', unit: 'd' },
      latex: { type: 'boolean' },
      successor: { type: 'code', codes: 'materials' },
      words: { type: 'text' },
    },
    rows: {
      pvc: {
        days: { value: 7 },
        latex: { value: false },
        successor: { value: 'silicone' },
        words: { value: 'a week' },
      },
      latex: {
        days: { value: 14 },
        latex: { value: true },
        successor: { value: 'coated' },
        words: { value: 'two weeks' },
      },
      coated: {
        days: { value: 23.5 },
        latex: { value: true },
        successor: { value: null },
        words: { value: null },
      },
      silicone: { days: { value: 4 }, latex: { value: false }, successor: { value: 'silicone' } },
    },
    otherwise: { days: null, latex: null, successor: 'pvc', words: 'ask' },
  },
  {
    id: 'kinds.usual',
    key: 'kinds',
    title: 'Usual days',
    columns: { days: { type: 'number', unit: 'd' } },
    rows: { urethral: { days: { value: 7 } }, suprapubic: { days: { value: 7 } } },
  },
];

export const WARD_FACTS: readonly Fact[] = [...BASE, ...DERIVED];
export const WARD_PARTS: Required<Parts> = {
  codes: {
    materials: words(['pvc', 'latex', 'coated', 'silicone', 'other']),
    kinds: words(['urethral', 'suprapubic']),
    symptoms: words(['fever', 'pain', 'rigors', 'delirium']),
    grades: words(['low', 'mid', 'high']),
    sides: words(['upper', 'lower']),
  },
  parameters: [
    parameter('choice.volume', { type: 'number', unit: 'mL', value: 7 }),
    parameter('choice.side', { type: 'code', codes: 'sides', value: 'lower' }),
    parameter('choice.signs', { type: 'codes', codes: 'symptoms', value: ['fever', 'delirium'] }),
  ],
  tables: TABLES,
};

function words(codes: readonly string[]): Readonly<Record<string, string>> {
  return Object.fromEntries(codes.map((code) => [code, `in words: ${code}`]));
}
