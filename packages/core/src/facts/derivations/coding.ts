import type { Derivation, Fact } from '../../release/fact.ts';
import type { CellValue, Table } from '../../release/parameter.ts';
import type { Bounds, Reading } from '../reading.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from '../truth.ts';
import { hull, none } from './choosing.ts';
import {
  type DerivationFault,
  type DerivationKind,
  ends,
  type Inputs,
  inexact,
  interval,
  NOTHING_TO_WATCH,
} from './kind.ts';

type Kind<K extends string> = Extract<Derivation, Readonly<Record<K, unknown>>>;

const possibleCodes = (reading: Reading): readonly string[] =>
  reading.bounds.kind === 'possible' ? reading.bounds.possible : [];

/** The cell of a row, the table's `otherwise`, or nothing. */
export const cellOf = (table: Table, key: string, column: string): CellValue =>
  table.rows[key] !== undefined && Object.hasOwn(table.rows, key)
    ? (table.rows[key][column]?.value ?? null)
    : (table.otherwise?.[column] ?? null);

function cellBounds(cell: Exclude<CellValue, null>, fact: Fact): Bounds {
  if (typeof cell === 'number') return interval(cell, cell);
  if (fact.type === 'text') return { kind: 'text', text: String(cell) };
  return { kind: 'possible', possible: [String(cell)] };
}

/** The cell of a table for a code; the whole domain where some possible code has a cell and another has none. */
export const lookup: DerivationKind<Kind<'lookup'>> = {
  facts: ({ lookup }) => [lookup.key],
  check: ({ lookup }, fact, dictionary) => {
    const [table, key] = [dictionary.table(lookup.table), dictionary.fact(lookup.key)];
    const found: DerivationFault[] = [];
    if (table && key && (key.type !== 'code' || key.codes !== table.key)) {
      found.push({
        at: '/lookup/key',
        expected: `a code of ${table.key}`,
        received: `${lookup.key} (${key.type} of ${key.codes ?? 'nothing'})`,
      });
    }
    const column = table?.columns[lookup.column];
    if (table && !column)
      found.push({
        at: '/lookup/column',
        expected: Object.keys(table.columns).join(', '),
        received: lookup.column,
      });
    if (column && (column.type !== fact.type || (column.unit ?? '1') !== (fact.unit ?? '1'))) {
      found.push({
        at: '/lookup/column',
        expected: `${fact.type} in ${fact.unit ?? '1'}`,
        received: `${column.type} in ${column.unit ?? '1'}`,
      });
    }
    if (column?.codes !== undefined && column.type === fact.type && column.codes !== fact.codes) {
      found.push({
        at: '/lookup/column',
        expected: `a code of ${fact.codes ?? 'nothing'}`,
        received: `a code of ${column.codes}`,
      });
    }
    return found;
  },
  evaluate: ({ lookup }, fact, inputs) => {
    const table = inputs.table(lookup.table);
    const key = inputs.reading(lookup.key);
    const cells = possibleCodes(key).map((code) => cellOf(table, code, lookup.column));
    const present = cells.filter((cell) => cell !== null).map((cell) => cellBounds(cell, fact));
    if (key.none || present.length === 0) return none(fact, inputs);
    const recorded: Truth = key.recorded === TRUE && present.length < cells.length ? UNKNOWN : key.recorded;
    const bounds = present.length < cells.length ? none(fact, inputs).bounds : present.reduce(hull);
    return { bounds, recorded };
  },
  asks: ({ lookup }, inputs) => inexact([lookup.key], inputs),
  watch: () => NOTHING_TO_WATCH,
};

/** Turns a number into a code: below the first cut the first code, and so on; `atCut` says where a cut itself falls. */
export const band: DerivationKind<Kind<'band'>> = {
  facts: ({ band }) => [band.of],
  check: ({ band }, fact, dictionary) => {
    const of = dictionary.fact(band.of);
    const found: DerivationFault[] = [];
    if (of && of.type !== 'number')
      found.push({ at: '/band/of', expected: 'a number', received: `${band.of} (${of.type})` });
    if (fact.type !== 'code') found.push({ at: '', expected: 'a code', received: fact.type });
    if (band.codes.length !== band.cuts.length + 1) {
      found.push({
        at: '/band/codes',
        expected: `${band.cuts.length + 1} codes`,
        received: `${band.codes.length} codes`,
      });
    }
    if (band.cuts.some((cut, index) => index > 0 && cut <= band.cuts[index - 1]!)) {
      found.push({ at: '/band/cuts', expected: 'rising cuts', received: band.cuts.join(', ') });
    }
    return found;
  },
  evaluate: ({ band }, fact, inputs) => {
    const of = inputs.reading(band.of);
    if (of.none) return none(fact, inputs);
    const side =
      typeof band.atCut === 'object' ? inputs.parameter(band.atCut.parameter) : (band.atCut ?? 'upper');
    const index = (value: number): number =>
      band.cuts.filter((cut) => (side === 'lower' ? value > cut : value >= cut)).length;
    const { low, high } = ends(of);
    return {
      bounds: { kind: 'possible', possible: [...new Set(band.codes.slice(index(low), index(high) + 1))] },
      recorded: of.recorded,
    };
  },
  asks: ({ band }, inputs) => inexact([band.of], inputs),
  watch: ({ band }) => ({ instants: [], pass: [[band.of, band.cuts]] }),
};

/** How many codes of a list are answered yes: at least those, at most with every open one. */
export const countCodes: DerivationKind<Kind<'countCodes'>> = {
  facts: ({ countCodes }) => [countCodes.of],
  check: ({ countCodes }, fact, dictionary) => {
    const of = dictionary.fact(countCodes.of);
    const found: DerivationFault[] = [];
    if (of && of.type !== 'codes')
      found.push({ at: '/countCodes/of', expected: 'codes', received: `${countCodes.of} (${of.type})` });
    if (fact.type !== 'number' || (fact.unit ?? '1') !== '1') {
      found.push({ at: '', expected: 'a number in 1', received: `${fact.type} in ${fact.unit ?? '1'}` });
    }
    return found;
  },
  evaluate: ({ countCodes }, _fact, inputs) => {
    const of = inputs.reading(countCodes.of);
    const list = countedCodes(countCodes.in, inputs);
    const answers = of.bounds.kind === 'answers' ? of.bounds.answers : new Map<string, Truth>();
    let [least, most] = [0, 0];
    list.forEach((code, at) => {
      // A code that is named twice counts once.
      if (list.includes(code, at + 1)) return;
      const answer = answers.get(code) ?? UNKNOWN;
      if (answer === TRUE) least += 1;
      if (answer !== FALSE) most += 1;
    });
    return { bounds: interval(least, most), recorded: of.recorded };
  },
  asks: ({ countCodes }, inputs) => inexact([countCodes.of], inputs),
  watch: () => NOTHING_TO_WATCH,
};

function countedCodes(
  list: readonly string[] | { readonly parameter: string },
  inputs: Inputs,
): readonly string[] {
  const value = 'parameter' in list ? inputs.parameter(list.parameter) : list;
  return Array.isArray(value) ? value : [];
}
