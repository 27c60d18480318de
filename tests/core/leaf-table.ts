import type { Fact, Operator } from '@dwellset/core';
import { makeFact } from '../reference/release.ts';

export type Word = 'true' | 'false' | 'unknown';

const LETTERS = { pvc: 'PVC', latex: 'latex', silicone: 'silicone' };
export const CODES = { materials: LETTERS };

/** One fact of each type, with everything that can make a value unknown. */
type ValueType = Exclude<Fact['type'], 'list'>;

export const FACTS: Readonly<Record<ValueType, Fact>> = {
  boolean: makeFact('a.boolean', { type: 'boolean', staleAfter: 'P1D' }),
  number: makeFact('a.number', {
    type: 'number',
    unit: 'mL',
    limits: [0, 100],
    usual: [1, 90],
    step: 1,
    staleAfter: 'P1D',
  }),
  code: makeFact('a.code', { type: 'code', codes: 'materials', staleAfter: 'P1D' }),
  codes: makeFact('a.codes', { type: 'codes', codes: 'materials', staleAfter: 'P1D' }),
  date: makeFact('a.date', { type: 'date', staleAfter: 'P1D' }),
  'date-time': makeFact('a.date-time', { type: 'date-time', staleAfter: 'P1D' }),
  text: makeFact('a.text', { type: 'text', staleAfter: 'P1D' }),
};

/** Value, operator, right side, truth. The moment is 2026-11-25 09:00 in London. */
export type Row = readonly [value: unknown, operator: Operator, expected: unknown, truth: Word];

const mL = (value: number, comparator?: string) => ({
  value,
  unit: 'mL',
  ...(comparator ? { comparator } : {}),
});
const some = { yes: ['pvc'], no: ['latex'] };

export const KNOWN: Readonly<Record<Fact['type'], readonly Row[]>> = {
  // A list is read only through its aggregates.
  list: [],
  boolean: [
    [true, 'equal', true, 'true'],
    [true, 'equal', false, 'false'],
    [false, 'notEqual', true, 'true'],
    [false, 'notEqual', false, 'false'],
    [false, 'recorded', undefined, 'true'],
    [false, 'notRecorded', undefined, 'false'],
  ],
  code: [
    ['pvc', 'equal', 'pvc', 'true'],
    ['pvc', 'equal', 'latex', 'false'],
    ['pvc', 'notEqual', 'latex', 'true'],
    ['pvc', 'notEqual', 'pvc', 'false'],
    ['pvc', 'in', ['latex', 'pvc'], 'true'],
    ['pvc', 'in', ['latex'], 'false'],
    ['pvc', 'in', [], 'false'],
    ['pvc', 'notIn', ['latex'], 'true'],
    ['pvc', 'notIn', ['pvc'], 'false'],
    ['pvc', 'recorded', undefined, 'true'],
    ['pvc', 'notRecorded', undefined, 'false'],
  ],
  codes: [
    [{ yes: ['pvc'], no: ['latex', 'silicone'] }, 'contains', 'pvc', 'true'],
    [{ yes: ['pvc'], no: ['latex', 'silicone'] }, 'contains', 'latex', 'false'],
    [some, 'contains', 'silicone', 'unknown'],
    [some, 'doesNotContain', 'pvc', 'false'],
    [some, 'doesNotContain', 'latex', 'true'],
    [some, 'doesNotContain', 'silicone', 'unknown'],
    [some, 'containsAny', ['latex', 'pvc'], 'true'],
    [some, 'containsAny', ['latex'], 'false'],
    [some, 'containsAny', ['latex', 'silicone'], 'unknown'],
    [some, 'containsAny', ['silicone', 'pvc'], 'true'],
    [some, 'containsAny', [], 'false'],
    [['pvc'], 'contains', 'latex', 'unknown'],
    [some, 'recorded', undefined, 'true'],
    [[], 'notRecorded', undefined, 'false'],
  ],
  number: [
    [mL(10), 'equal', 10, 'true'],
    [mL(10.4), 'equal', 10, 'true'],
    [mL(10), 'equal', 11, 'false'],
    [mL(10), 'notEqual', 11, 'true'],
    [mL(10), 'notEqual', 10, 'false'],
    [mL(10), 'lessThan', 10, 'false'],
    [mL(10), 'lessThan', 11, 'true'],
    [mL(10), 'lessThanInclusive', 10, 'true'],
    [mL(10), 'lessThanInclusive', 9, 'false'],
    [mL(10), 'greaterThan', 10, 'false'],
    [mL(10), 'greaterThan', 9, 'true'],
    [mL(10), 'greaterThanInclusive', 10, 'true'],
    [mL(10), 'greaterThanInclusive', 11, 'false'],
    [mL(10, '>'), 'equal', 9, 'false'],
    [mL(10, '>'), 'equal', 50, 'unknown'],
    [mL(10, '>'), 'equal', 10, 'unknown'],
    [mL(10, '>'), 'notEqual', 9, 'true'],
    [mL(10, '>'), 'notEqual', 50, 'unknown'],
    [mL(10, '>'), 'greaterThan', 9, 'true'],
    [mL(10, '>'), 'greaterThan', 10, 'unknown'],
    [mL(10, '>='), 'greaterThanInclusive', 10, 'true'],
    [mL(10, '>='), 'greaterThanInclusive', 11, 'unknown'],
    [mL(10, '>='), 'lessThan', 10, 'false'],
    [mL(10, '>='), 'lessThanInclusive', 10, 'unknown'],
    [mL(10, '>='), 'lessThanInclusive', 100, 'true'],
    [mL(10, '<='), 'lessThanInclusive', 10, 'true'],
    [mL(10, '<'), 'lessThan', 10, 'unknown'],
    [mL(10, '<'), 'lessThan', 11, 'true'],
    [mL(10, '<'), 'greaterThan', 10, 'false'],
    [mL(10, '<'), 'greaterThanInclusive', 10, 'unknown'],
    [mL(10, '<'), 'greaterThanInclusive', 0, 'true'],
    [mL(10, '<'), 'recorded', undefined, 'true'],
    [mL(10, '<'), 'notRecorded', undefined, 'false'],
  ],
  date: [
    ['2026-11-24', 'lessThan', '2026-11-24', 'false'],
    ['2026-11-24', 'lessThan', '2026-11-25', 'true'],
    ['2026-11-24', 'lessThanInclusive', '2026-11-24', 'true'],
    ['2026-11-24', 'lessThanInclusive', '2026-11-23', 'false'],
    ['2026-11-24', 'greaterThan', '2026-11-24', 'false'],
    ['2026-11-24', 'greaterThan', '2026-11-23', 'true'],
    ['2026-11-24', 'greaterThanInclusive', '2026-11-24', 'true'],
    ['2026-11-24', 'greaterThanInclusive', '2026-11-25', 'false'],
    ['2026-11-24', 'before', '2026-11-24', 'false'],
    ['2026-11-24', 'before', '2026-11-25', 'true'],
    ['2026-11-24', 'after', '2026-11-24', 'false'],
    ['2026-11-24', 'after', '2026-11-23', 'true'],
    ['2027-01-01', 'recorded', undefined, 'true'],
    ['2027-01-01', 'notRecorded', undefined, 'false'],
  ],
  'date-time': [
    ['2026-11-24T12:00:00Z', 'lessThan', '2026-11-24T13:00:00+01:00', 'false'],
    ['2026-11-24T12:00:00Z', 'lessThanInclusive', '2026-11-24T13:00:00+01:00', 'true'],
    ['2026-11-24T12:00:00Z', 'greaterThan', '2026-11-24T12:00:00Z', 'false'],
    ['2026-11-24T12:00:00Z', 'greaterThanInclusive', '2026-11-24T12:00:00Z', 'true'],
    ['2026-11-24T12:00:00Z', 'before', '2026-11-24T12:00:01Z', 'true'],
    ['2026-11-24T12:00:00Z', 'before', '2026-11-24T12:00:00Z', 'false'],
    ['2026-11-24T12:00:00Z', 'after', '2026-11-24T11:59:59Z', 'true'],
    ['2026-11-24T12:00:00Z', 'after', '2026-11-24T12:00:00Z', 'false'],
    ['2026-11-24', 'lessThan', '2026-11-24T00:00:00Z', 'false'],
    ['2026-11-24', 'lessThan', '2026-11-24T12:00:00Z', 'unknown'],
    ['2026-11-24', 'lessThan', '2026-11-25T00:00:00Z', 'true'],
    ['2026-11-24', 'lessThanInclusive', '2026-11-23T23:59:59Z', 'false'],
    ['2026-11-24', 'lessThanInclusive', '2026-11-24T00:00:00Z', 'unknown'],
    ['2026-11-24', 'greaterThan', '2026-11-23T23:59:59Z', 'true'],
    ['2026-11-24', 'greaterThan', '2026-11-24T00:00:00Z', 'unknown'],
    ['2026-11-24', 'greaterThanInclusive', '2026-11-24T00:00:00Z', 'true'],
    ['2026-11-24', 'greaterThanInclusive', '2026-11-25T00:00:00Z', 'false'],
    ['2026-11-24', 'before', '2026-11-24T12:00:00Z', 'unknown'],
    ['2026-11-24', 'after', '2026-11-24T12:00:00Z', 'unknown'],
    ['2026-11-25', 'lessThanInclusive', '2026-11-25T09:00:00Z', 'true'],
    ['2026-11-24', 'recorded', undefined, 'true'],
    ['2026-11-24', 'notRecorded', undefined, 'false'],
  ],
  text: [
    ['lot 7', 'recorded', undefined, 'true'],
    ['lot 7', 'notRecorded', undefined, 'false'],
  ],
};
