import type { Cursor } from './cursor.ts';

/** What every typed thing has: a fact, a parameter, a column of a table. */
export interface Typed {
  readonly type: string | undefined;
  readonly unit: string | undefined;
  readonly step: number | undefined;
  /** Limits of a fact; nothing for the others. */
  readonly limits: readonly [number, number] | undefined;
  readonly codes: string | undefined;
}

export interface FactEntry extends Typed {
  readonly id: string;
  readonly entry: Cursor;
  readonly derived: boolean;
}

export interface ParameterEntry extends Typed {
  readonly id: string;
  readonly topic: string;
  readonly entry: Cursor;
  readonly range: readonly [number, number] | undefined;
}

export interface TableEntry {
  readonly id: string;
  readonly topic: string;
  readonly key: string | undefined;
  readonly columns: ReadonlyMap<string, Typed>;
  readonly entry: Cursor;
}

const TYPES = new Set(['boolean', 'number', 'code', 'codes', 'date', 'date-time', 'text', 'list']);

function readTyped(entry: Cursor): Typed {
  const type = entry.at('type').text;
  return {
    type: type !== undefined && TYPES.has(type) ? type : undefined,
    unit: entry.at('unit').text,
    step: positive(entry.at('step').number),
    limits: rising(entry.at('limits').band),
    codes: entry.at('codes').text,
  };
}

/** A type that is unknown, or lacks its unit or code list, is read as none: nothing more is said about its values. */
function readWhole(entry: Cursor): Typed {
  const typed = readTyped(entry);
  const lacks =
    typed.type === 'number'
      ? typed.unit === undefined
      : typed.type?.startsWith('code') && typed.codes === undefined;
  return lacks ? { ...typed, type: undefined } : typed;
}

/** Ends in the wrong order are reported where they stand, and then say nothing about other values. */
const rising = (ends: readonly [number, number] | undefined): readonly [number, number] | undefined =>
  ends !== undefined && ends[0] <= ends[1] ? ends : undefined;

const positive = (step: number | undefined): number | undefined =>
  step !== undefined && step > 0 ? step : undefined;

export function readFact(entry: Cursor): FactEntry {
  return { ...readWhole(entry), id: entry.at('id').text ?? '', entry, derived: entry.has('from') };
}

export function readParameter(entry: Cursor, topic: string): ParameterEntry {
  return {
    ...readWhole(entry),
    id: entry.at('id').text ?? '',
    topic,
    entry,
    range: rising(entry.at('range').band),
  };
}

export function readTable(entry: Cursor, topic: string): TableEntry {
  const columns = entry.at('columns').entries.map(([name, column]) => [name, readTyped(column)] as const);
  const id = entry.at('id').text ?? '';
  return { id, topic, key: entry.at('key').text, columns: new Map(columns), entry };
}

/** A column without a unit is a count; facts and parameters always state theirs. */
export const unitOf = ({ unit }: Pick<Typed, 'unit'>): string => unit ?? '1';

/** `number in mL`, `code of materials` */
export const described = ({ type, unit, codes }: Typed): string =>
  [type ?? 'unknown type', unit !== undefined && `in ${unit}`, codes !== undefined && `of ${codes}`]
    .filter(Boolean)
    .join(' ');
