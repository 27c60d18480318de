import type { Case, Fact } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { asksOf, fact, faultsOf, readOne } from './support/read.ts';

const label = fact('catheter.label-dwell', { type: 'number', unit: 'd', limits: [1, 100] });
const material = fact('catheter.material', { type: 'code', codes: 'materials' });
const table = fact('catheter.table-dwell', {
  type: 'number',
  unit: 'd',
  limits: [1, 100],
  from: { lookup: { table: 'dwell.longest', key: material.id, column: 'days' } },
});
const size = fact('catheter.size', { type: 'number', unit: '[Ch]' });
const inserted = fact('catheter.inserted-at', { type: 'date-time' });
const renewed = fact('review.renewed-at', { type: 'date-time' });
const symptoms = fact('infection.symptoms', { type: 'codes', codes: 'symptoms' });
const noted = fact('infection.noted', { type: 'codes', codes: 'symptoms' });
const latex = fact('allergy.latex', { type: 'boolean' });
const latexAsked = fact('allergy.latex-asked', { type: 'boolean' });
const lot = fact('record.lot', { type: 'text' });
const oldLot = fact('record.old-lot', { type: 'text' });
const OPERANDS = [
  label,
  material,
  table,
  size,
  inserted,
  renewed,
  symptoms,
  noted,
  latex,
  latexAsked,
  lot,
  oldLot,
];
const PARTS = {
  codes: {
    materials: { pvc: 'PVC', silicone: 'silicone', coated: 'coated', other: 'other' },
    symptoms: { fever: 'fever', pain: 'pain' },
  },
  tables: [
    {
      id: 'dwell.longest',
      key: 'materials',
      title: 'Longest dwell',
      columns: { days: { type: 'number', unit: 'd' } },
      rows: {
        pvc: { days: { value: 7 } },
        silicone: { days: { value: 84 } },
        coated: { days: { value: 84 } },
      },
      otherwise: { days: null },
    },
  ],
} as const;

const derived = (type: Fact['type'], from: NonNullable<Fact['from']>, parts: Partial<Fact> = {}): Fact =>
  fact('catheter.derived', { type, from, ...parts });
const days = (from: NonNullable<Fact['from']>) => derived('number', from, { unit: 'd', limits: [1, 100] });
const shortest = days({ lowest: [label.id, table.id] });
const longest = days({ highest: [label.id, table.id] });
const labelFirst = days({ firstRecorded: [label.id, table.id] });
const tableFirst = days({ firstRecorded: [table.id, label.id] });
const newest = derived('date-time', { highest: [inserted.id, renewed.id] });
const signs = derived('codes', { firstRecorded: [symptoms.id, noted.id] }, { codes: 'symptoms' });
const allergic = derived('boolean', { firstRecorded: [latexAsked.id, latex.id] });
const anyLot = derived('text', { firstRecorded: [lot.id, oldLot.id] });
const d = (value: number) => ({ value, unit: 'd' });
const of = (days: number | null | undefined, code?: string | null): Case['facts'] => ({
  ...(days === undefined ? {} : { [label.id]: days === null ? null : d(days) }),
  ...(code === undefined ? {} : { [material.id]: code }),
});

describe('the lowest and the highest', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    ['the lower of two', shortest, of(28, 'silicone'), [28, 28, 'true']],
    ['the higher of two', longest, of(28, 'silicone'), [84, 84, 'true']],
    ['the lower with one unknown is at most the other', shortest, of(28), [1, 28, 'unknown', 'derived']],
    ['the higher with one unknown is at least the other', longest, of(28), [28, 100, 'unknown', 'derived']],
    ['one known to have no entry is passed over', shortest, of(28, 'other'), [28, 28, 'true']],
    [
      'one known not to be recorded is not passed over',
      shortest,
      of(null, 'pvc'),
      [1, 7, 'false', 'derived'],
    ],
    [
      'the later of two instants, one by day alone',
      newest,
      { [inserted.id]: '2026-11-24', [renewed.id]: '2026-11-23T10:00:00Z' },
      [Date.UTC(2026, 10, 24), Date.UTC(2026, 10, 25) - 1, 'true', 'derived'],
    ],
    [
      'an instant not supplied may be as late as the case',
      newest,
      { [inserted.id]: '2026-11-24T09:00:00Z' },
      [Date.UTC(2026, 10, 24, 9), Date.UTC(2026, 10, 25, 9), 'unknown', 'derived'],
    ],
  ])('%s', (_name, derivedFact, facts, expected) => {
    expect(readOne(derivedFact, OPERANDS, PARTS, { facts })).toEqual(expected);
  });

  it('has no value where no operand has one', () => {
    const only = days({ lowest: [table.id, table.id] });
    expect(readOne(only, OPERANDS, PARTS, { facts: of(undefined, 'other') })).toEqual([
      1,
      100,
      'false',
      'no-entry',
      'none',
    ]);
  });
});

describe('the first that is recorded', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    ['the label where it is recorded', labelFirst, of(28, 'pvc'), [28, 28, 'true']],
    [
      'the table where the label is known not to be, marked assumed',
      labelFirst,
      of(null, 'pvc'),
      [7, 7, 'true', 'assumed'],
    ],
    ['either while nobody supplied the label', labelFirst, of(undefined, 'pvc'), [1, 100, 'true', 'derived']],
    ['the label though the material is not known', labelFirst, of(28), [28, 28, 'true']],
    ['bounds from a later one are not marked assumed', labelFirst, of(null), [1, 100, 'unknown', 'derived']],
    ['no label and no entry: no value', labelFirst, of(null, 'other'), [1, 100, 'false', 'no-entry', 'none']],
    ['the table first, label known', tableFirst, of(28, 'silicone'), [84, 84, 'true']],
    ['the table first without an entry', tableFirst, of(28, 'other'), [28, 28, 'true', 'assumed']],
    [
      'the table while the material is not known, then the label',
      tableFirst,
      of(28),
      [1, 100, 'true', 'derived'],
    ],
    [
      'two lists that agree on one sign',
      signs,
      { [symptoms.id]: { absent: 'not-asked' }, [noted.id]: ['fever'] },
      ['fever=unknown pain=unknown', 'true', 'derived'],
    ],
    [
      'the later list where the first is known to be empty',
      signs,
      { [symptoms.id]: null, [noted.id]: { yes: ['fever'], no: ['pain'] } },
      ['fever=true pain=false', 'true', 'assumed'],
    ],
    ['yes or no from the first', allergic, { [latexAsked.id]: false, [latex.id]: true }, ['false', 'true']],
    [
      'yes or no from the later, the first refused',
      allergic,
      { [latexAsked.id]: { absent: 'asked-declined' }, [latex.id]: true },
      ['true', 'true', 'assumed'],
    ],
    ['text from the later', anyLot, { [lot.id]: null, [oldLot.id]: 'A7' }, ['A7', 'true', 'assumed']],
  ])('%s', (_name, derivedFact, facts, expected) => {
    expect(readOne(derivedFact, OPERANDS, PARTS, { facts })).toEqual(expected);
  });
});

describe('what the check finds', () => {
  it.each<[string, Fact, string[]]>([
    ['nothing in the shortest dwell', shortest, []],
    ['nothing in the newest instant', newest, []],
    ['nothing in the first list', signs, []],
    ['nothing in text', anyLot, []],
    [
      'nothing where a plain count states its unit and the other does not',
      derived('number', { lowest: ['catheter.ways', 'catheter.ports'] }, { unit: '1' }),
      [],
    ],
    [
      'a lowest of codes',
      derived('code', { lowest: [material.id, material.id] }, { codes: 'materials' }),
      [''],
    ],
    ['a highest of yes and no', derived('boolean', { highest: [latex.id, latexAsked.id] }), ['']],
    ['an operand in another unit', days({ highest: [label.id, size.id] }), ['/highest/1']],
    ['an operand of another type', days({ firstRecorded: [inserted.id, label.id] }), ['/firstRecorded/0']],
    [
      'an operand of another list',
      derived('code', { firstRecorded: [material.id, 'patient.setting'] }, { codes: 'materials' }),
      ['/firstRecorded/1'],
    ],
  ])('%s', (_name, derivedFact, expected) => {
    const more = [
      fact('catheter.ways', { type: 'number' }),
      fact('catheter.ports', { type: 'number', unit: '1' }),
      fact('patient.setting', { type: 'code', codes: 'settings' }),
    ];
    expect(faultsOf(derivedFact, [...OPERANDS, ...more]).map((fault) => fault.at)).toEqual(expected);
  });
});

describe('what to ask', () => {
  it.each<[string, Fact, Case['facts'], string[]]>([
    ['both operands of the lowest', shortest, {}, [label.id, table.id]],
    ['not one known to have no entry', shortest, of(undefined, 'other'), [label.id]],
    ['the label first, and only it', labelFirst, {}, [label.id]],
    ['nothing once the label is known', labelFirst, of(28), []],
    ['what the table needs once the label is known not to be recorded', labelFirst, of(null), [table.id]],
    ['whether an entry stands, though all possible entries are alike', tableFirst, of(28), [table.id]],
  ])('%s', (_name, derivedFact, facts, expected) => {
    expect(asksOf(derivedFact, OPERANDS, PARTS, { facts })).toEqual(expected);
  });

  it('asks for the key where the entries are alike but it is not known whether one stands', () => {
    const one = {
      ...PARTS.tables[0],
      rows: {
        pvc: { days: { value: 7 } },
        silicone: { days: { value: 7 } },
        coated: { days: { value: 7 } },
        other: { days: { value: 7 } },
      },
    };
    const facts = of(28);
    expect(readOne(table, OPERANDS, { ...PARTS, tables: [one] }, { facts })).toEqual([7, 7, 'unknown']);
    expect(readOne(tableFirst, OPERANDS, { ...PARTS, tables: [one] }, { facts })).toEqual([
      7,
      28,
      'true',
      'derived',
    ]);
    expect(asksOf(tableFirst, OPERANDS, { ...PARTS, tables: [one] }, { facts })).toEqual([table.id]);
  });
});
