import type { Case, Fact, Table } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { asksOf, fact, faultsOf, parameter, readOne } from './support/read.ts';

const material = fact('catheter.material', { type: 'code', codes: 'materials' });
const age = fact('patient.age-years', { type: 'number', unit: 'a', step: 1, limits: [0, 120] });
const symptoms = fact('infection.symptoms', { type: 'codes', codes: 'symptoms', unlisted: 'no' });
const group = fact('patient.age-group', {
  type: 'code',
  codes: 'ages',
  from: { band: { of: age.id, cuts: [1, 12], codes: ['infant', 'child', 'adult'] } },
});
const size = fact('catheter.child-size', {
  type: 'number',
  unit: '[Ch]',
  from: { lookup: { table: 'size.by-age', key: group.id, column: 'size' } },
});
const OPERANDS = [material, age, symptoms, group];
const dwell: Table = {
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
    silicone: {
      days: { value: 84 },
      latex: { value: false },
      successor: { value: null },
      words: { value: 'twelve weeks' },
    },
    latex: { days: { value: 14 }, latex: { value: true }, successor: { value: 'silicone' } },
  },
  otherwise: { days: null, latex: null, successor: null, words: 'ask' },
};
const PARTS = {
  codes: {
    materials: { pvc: 'PVC', silicone: 'silicone', latex: 'latex', other: 'other' },
    symptoms: { fever: 'fever', pain: 'pain', rigors: 'rigors' },
    ages: { infant: 'infant', child: 'child', adult: 'adult' },
  },
  parameters: [
    parameter('size.at-boundary', { type: 'code', value: 'lower' }),
    parameter('infection.signs', { type: 'codes', codes: 'symptoms', value: ['fever', 'rigors'] }),
  ],
  tables: [
    dwell,
    {
      id: 'size.by-age',
      key: 'ages',
      title: 'Size by age',
      columns: { size: { type: 'number', unit: '[Ch]' } },
      rows: {
        infant: { size: { value: 6 } },
        child: { size: { value: 8 } },
        adult: { size: { value: null } },
      },
    },
  ] satisfies Table[],
};

const column = (type: Fact['type'], name: string, parts: Partial<Fact> = {}): Fact =>
  fact('catheter.derived', {
    type,
    from: { lookup: { table: dwell.id, key: material.id, column: name } },
    ...parts,
  });
const days = column('number', 'days', { unit: 'd', limits: [1, 100] });
const hasLatex = column('boolean', 'latex');
const successor = column('code', 'successor', { codes: 'materials' });
const words = column('text', 'words');
const banded = (atCut?: 'upper' | 'lower' | { parameter: string }, parts: Partial<Fact> = {}): Fact =>
  fact('patient.derived', {
    type: 'code',
    codes: 'ages',
    from: {
      band: { of: age.id, cuts: [1, 12], codes: ['infant', 'child', 'adult'], ...(atCut ? { atCut } : {}) },
    },
    ...parts,
  });
const counted = (list: readonly string[] | { parameter: string }): Fact =>
  fact('infection.derived', { type: 'number', from: { countCodes: { of: symptoms.id, in: list } } });
const years = (value: number, comparator?: '<' | '>') => ({
  [age.id]: { value, unit: 'a', ...(comparator ? { comparator } : {}) },
});
const read = (of: Fact, facts: Case['facts']) => readOne(of, OPERANDS, PARTS, { facts });

describe('looking up in a table', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    ['the cell of the code', days, { [material.id]: 'pvc' }, [7, 7, 'true']],
    ['an unknown code with a gap among the rows', days, {}, [1, 100, 'unknown', 'derived']],
    ['a code without an entry', days, { [material.id]: 'other' }, [1, 100, 'false', 'no-entry', 'none']],
    ['a code known not to be recorded', days, { [material.id]: null }, [1, 100, 'false', 'derived']],
    ['yes or no', hasLatex, { [material.id]: 'latex' }, ['true', 'true']],
    ['a code from a code', successor, { [material.id]: 'pvc' }, ['silicone', 'true']],
    [
      'an empty cell',
      successor,
      { [material.id]: 'silicone' },
      ['latex other pvc silicone', 'false', 'no-entry', 'none'],
    ],
    ['words', words, { [material.id]: 'pvc' }, ['a week', 'true']],
    ['words for every other code', words, { [material.id]: 'other' }, ['ask', 'true']],
    ['words of an unknown code', words, {}, [undefined, 'unknown', 'derived']],
  ])('%s', (_name, of, facts, expected) => {
    expect(read(of, facts)).toEqual(expected);
  });

  it.each<[string, Case['facts'], unknown[]]>([
    ['the rows of the bands that are possible', years(11, '<'), [6, 8, 'true', 'derived']],
    [
      'one possible band without an entry opens it',
      years(5, '>'),
      [-Infinity, Infinity, 'unknown', 'derived'],
    ],
    ['one band', years(0), [6, 6, 'true']],
  ])('goes by a banded number: %s', (_name, facts, expected) => {
    expect(readOne(size, OPERANDS, PARTS, { facts })).toEqual(expected);
  });
});

describe('bands of a number', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    ['below the first cut', banded(), years(0), ['infant', 'true']],
    ['at a cut, the upper one unless stated', banded(), years(12), ['adult', 'true']],
    ['at a cut, the lower one', banded('lower'), years(12), ['child', 'true']],
    ['at a cut, by local choice', banded({ parameter: 'size.at-boundary' }), years(1), ['infant', 'true']],
    ['above the last cut', banded('lower'), years(13), ['adult', 'true']],
    ['a bound leaves several', banded(), years(5, '>'), ['child adult', 'true', 'derived']],
    ['not supplied', banded(), {}, ['infant child adult', 'unknown', 'derived']],
    ['known not to be recorded', banded(), { [age.id]: null }, ['infant child adult', 'false', 'derived']],
    [
      'a number without a value',
      fact('patient.derived', {
        type: 'code',
        codes: 'ages',
        from: { band: { of: size.id, cuts: [7], codes: ['infant', 'child'] } },
      }),
      years(40),
      ['adult child infant', 'false', 'no-entry', 'none'],
    ],
    [
      'one code for two neighbours is still one code',
      fact('patient.derived', {
        type: 'code',
        codes: 'ages',
        from: { band: { of: age.id, cuts: [1, 12], codes: ['child', 'child', 'adult'] } },
      }),
      years(11, '<'),
      ['child', 'true'],
    ],
  ])('%s', (_name, of, facts, expected) => {
    expect(readOne(of, [...OPERANDS, size], PARTS, { facts })).toEqual(expected);
  });
});

describe('counting answers', () => {
  it.each<[string, Fact, Case['facts'], unknown[]]>([
    [
      'those answered yes',
      counted(['fever', 'pain']),
      { [symptoms.id]: ['fever', 'rigors'] },
      [1, 1, 'true'],
    ],
    [
      'open ones may count',
      counted(['fever', 'pain', 'rigors']),
      { [symptoms.id]: { yes: ['fever'], no: ['pain'] } },
      [1, 2, 'true', 'derived'],
    ],
    [
      'a list by local choice',
      counted({ parameter: 'infection.signs' }),
      { [symptoms.id]: ['fever', 'rigors'] },
      [2, 2, 'true'],
    ],
    [
      'a code listed twice counts once',
      counted(['fever', 'fever']),
      { [symptoms.id]: ['fever'] },
      [1, 1, 'true'],
    ],
    ['not supplied', counted(['fever', 'pain']), {}, [0, 2, 'unknown', 'derived']],
    [
      'known not to be recorded',
      counted(['fever', 'pain']),
      { [symptoms.id]: null },
      [0, 2, 'false', 'derived'],
    ],
  ])('%s', (_name, of, facts, expected) => {
    expect(read(of, facts)).toEqual(expected);
  });
});

describe('what the check finds', () => {
  const lookup = (key: string, name: string, parts: Partial<Fact> & Pick<Fact, 'type'>): Fact =>
    fact('catheter.derived', { from: { lookup: { table: dwell.id, key, column: name } }, ...parts });
  const band = (
    parts: Partial<Fact>,
    of = age.id,
    cuts = [1, 12],
    codes = ['infant', 'child', 'adult'],
  ): Fact =>
    fact('patient.derived', { type: 'code', codes: 'ages', from: { band: { of, cuts, codes } }, ...parts });

  it.each<[string, Fact, string[]]>([
    ['nothing in a lookup', days, []],
    ['nothing in a code from a code', successor, []],
    ['nothing in a band', band({}), []],
    ['nothing in a count', counted(['fever']), []],
    [
      'a key that is no code of the table',
      lookup(age.id, 'days', { type: 'number', unit: 'd' }),
      ['/lookup/key'],
    ],
    ['a key of another list', lookup(group.id, 'days', { type: 'number', unit: 'd' }), ['/lookup/key']],
    [
      'a column the table has not',
      lookup(material.id, 'weeks', { type: 'number', unit: 'd' }),
      ['/lookup/column'],
    ],
    [
      'a column of another type',
      lookup(material.id, 'words', { type: 'number', unit: 'd' }),
      ['/lookup/column'],
    ],
    [
      'a column in another unit',
      lookup(material.id, 'days', { type: 'number', unit: 'h' }),
      ['/lookup/column'],
    ],
    [
      'a column of another list',
      lookup(material.id, 'successor', { type: 'code', codes: 'ages' }),
      ['/lookup/column'],
    ],
    ['a band of no number', band({}, material.id), ['/band/of']],
    ['a band that is no code', band({ type: 'number' }), ['']],
    ['too few codes', band({}, age.id, [1, 12], ['infant', 'child']), ['/band/codes']],
    ['cuts that do not rise', band({}, age.id, [12, 1]), ['/band/cuts']],
    [
      'a count of no codes',
      fact('infection.derived', { type: 'number', from: { countCodes: { of: age.id, in: ['fever'] } } }),
      ['/countCodes/of'],
    ],
    [
      'a count in a unit',
      fact('infection.derived', {
        type: 'number',
        unit: 'd',
        from: { countCodes: { of: symptoms.id, in: ['fever'] } },
      }),
      [''],
    ],
    [
      'a count that is yes or no',
      fact('infection.derived', {
        type: 'boolean',
        from: { countCodes: { of: symptoms.id, in: ['fever'] } },
      }),
      [''],
    ],
  ])('%s', (_name, of, expected) => {
    expect(faultsOf(of, OPERANDS, PARTS).map((fault) => fault.at)).toEqual(expected);
  });
});

describe('what to ask', () => {
  it.each<[string, Fact, Case['facts'], string[]]>([
    ['the code a table goes by', days, {}, [material.id]],
    ['nothing for a code without an entry', days, { [material.id]: 'other' }, []],
    ['the number that is banded', banded(), years(5, '>'), [age.id]],
    ['nothing once it is exact', banded(), years(5), []],
    [
      'the answers that are counted',
      counted(['fever']),
      { [symptoms.id]: { yes: [], no: ['pain'] } },
      [symptoms.id],
    ],
  ])('%s', (_name, of, facts, expected) => {
    expect(asksOf(of, OPERANDS, PARTS, { facts })).toEqual(expected);
  });
});
