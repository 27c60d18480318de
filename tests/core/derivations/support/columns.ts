import { type Fact, type Reading, sqlPrefix, TRUE, UNKNOWN } from '@dwellset/core';
import { DateTime } from 'luxon';

export type Cell = number | null;
export type Columns = Readonly<Record<string, Cell>>;

export interface Scene {
  readonly codes: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly zone: string;
}

/** Code lists in the order in which a plan holds them. */
export const codesIn = (codes: Scene['codes'], list: string): readonly string[] =>
  Object.keys(codes[list] ?? {}).sort();

/** The columns of a fact as read, written out by hand and with another date library than the core's. */
export function columnsOf(reading: Reading, scene: Scene): Columns {
  const { fact, recorded, none } = reading;
  return prefixed(fact.id, { ...valueColumns(reading, scene), recorded, none: none ? 1 : 0 });
}

/** The columns of the moment of a case. */
export const momentColumns = (asOf: number, zone: string): Columns =>
  prefixed('asOf', { low: asOf, high: asOf, ...clockColumns(asOf, asOf, zone) });

const prefixed = (id: string, cells: Columns): Columns =>
  Object.fromEntries(Object.entries(cells).map(([part, cell]) => [`${sqlPrefix(id)}__${part}`, cell]));

function valueColumns({ fact, bounds }: Reading, scene: Scene): Columns {
  switch (bounds.kind) {
    case 'interval': {
      const { low, high } = bounds;
      return { low, high, ...(fact.type === 'date-time' ? clockColumns(low, high, scene.zone) : {}) };
    }
    case 'possible':
      return { may: mask(fact, bounds.possible, scene) };
    case 'answers': {
      const given = (wanted: number) =>
        [...bounds.answers].flatMap(([code, answer]) => (answer === wanted ? [code] : []));
      return { yes: mask(fact, given(TRUE), scene), open: mask(fact, given(UNKNOWN), scene) };
    }
    case 'text':
    case 'list':
      return {};
  }
}

function mask(fact: Fact, codes: readonly string[], scene: Scene): number {
  const list = fact.type === 'boolean' ? ['true', 'false'] : codesIn(scene.codes, fact.codes ?? '');
  return list.reduce((sofar, code, index) => sofar + (codes.includes(code) ? 2 ** index : 0), 0);
}

function clockColumns(low: number, high: number, zone: string): Columns {
  const local = DateTime.fromMillis(low === high ? low : 0, { zone });
  const exact = low === high && Number.isFinite(low);
  return {
    day_low: localDay(low, zone),
    day_high: localDay(high, zone),
    hour: exact ? local.hour + local.minute / 60 + (local.second + local.millisecond / 1000) / 3600 : null,
  };
}

function localDay(instant: number, zone: string): number {
  if (!Number.isFinite(instant)) return instant;
  const { year, month, day } = DateTime.fromMillis(instant, { zone });
  return Date.UTC(year, month - 1, day) / 86_400_000;
}
