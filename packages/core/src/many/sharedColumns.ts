import type { Plan } from '../plan/plan.ts';
import type { Column } from './columns.ts';
import { type Planes, wordsFor } from './planes.ts';
import { type CaseColumns, Columns } from './readCases.ts';

/**
 * Columns of many cases in memory that threads share. It may be posted to any thread, which opens it without a copy.
 * Nobody writes into it. Offsets are in bytes.
 */
export interface SharedColumns {
  readonly memory: SharedArrayBuffer;
  readonly rows: number;
  /** What the cases were read by: another plan reads them otherwise. */
  readonly readBy: string;
  readonly facts: readonly SharedColumn[];
  /** Of sets with an effective period: the cases outside it. */
  readonly closed: readonly (readonly [set: string, bits: number])[];
}

interface SharedColumn {
  readonly fact: string;
  readonly recorded: SharedPlanes;
  readonly low?: number;
  readonly high?: number;
  readonly codes: readonly (readonly [code: string, planes: SharedPlanes])[];
}

type SharedPlanes = readonly [certain: number, possible: number];

/** Rows from the first up to the one behind the last; the first is a multiple of 32. */
export interface Block {
  readonly from: number;
  readonly to: number;
}

/**
 * Copies columns into shared memory, once; the options of stock lists are left out. Throws a RangeError where a page may
 * not share any.
 */
export function shareColumns(given: CaseColumns): SharedColumns {
  if (typeof SharedArrayBuffer === 'undefined') {
    throw new RangeError(
      'there is no shared memory here; a page has it only where it is cross-origin isolated',
    );
  }
  if (!(given instanceof Columns))
    throw new RangeError('columns that readCases did not make cannot be shared');
  const { plan, rows, columns } = given;
  const pieces: (readonly [at: number, from: Uint32Array | Float64Array])[] = [];
  let size = 0;
  const lay = (from: Uint32Array | Float64Array): number => {
    const at = size;
    pieces.push([at, from]);
    // A piece of doubles begins at a multiple of eight.
    size += (from.byteLength + 7) & ~7;
    return at;
  };
  const layPlanes = ({ certain, possible }: Planes): SharedPlanes => [lay(certain), lay(possible)];
  const facts = Array.from(
    columns,
    ([
      fact,
      {
        column: { recorded, low, high, codes },
      },
    ]) => ({
      fact,
      recorded: layPlanes(recorded),
      ...(low.length > 0 && { low: lay(low), high: lay(high) }),
      codes: Array.from(codes, ([code, planes]) => [code, layPlanes(planes)] as const),
    }),
  );
  const closed = plan.sets
    .filter(({ release }) => release.effectivePeriod !== undefined)
    .map(({ release: { id } }) => [id, lay(given.outOfPeriod(id))] as const);
  const memory = new SharedArrayBuffer(size);
  for (const [at, { buffer, byteOffset, byteLength }] of pieces) {
    new Uint8Array(memory, at, byteLength).set(new Uint8Array(buffer, byteOffset, byteLength));
  }
  return { memory, rows, readBy: readerOf(plan), facts, closed };
}

/** What a plan reads cases by. */
const readerOf = ({ sets, allowed }: Plan): string =>
  [...sets.map(({ digest }) => digest), allowed.has('out-of-period')].join(' ');

/**
 * Opens columns that another thread shared, for the plan that they were read for; nothing is copied. With a block only
 * its rows are there, counted from the first of them. What was not shared, options included, cannot be asked of them: that
 * throws a RangeError, as does a plan that they were not read for.
 */
export function openColumns(plan: Plan, shared: SharedColumns, block?: Block): CaseColumns {
  const { memory, rows, facts, closed } = shared;
  if (shared.readBy !== readerOf(plan)) throw new RangeError('the columns were read for other rules');
  const { from, to } = block ?? { from: 0, to: rows };
  if (from % 32 !== 0 || from < 0 || to < from || to > rows || (to % 32 !== 0 && to !== rows)) {
    throw new RangeError(`no block of ${rows} rows: ${from} to ${to}`);
  }
  const bits = (at: number): Uint32Array => new Uint32Array(memory, at + from / 8, wordsFor(to - from));
  const ends = (at: number | undefined): Float64Array =>
    at === undefined ? new Float64Array(0) : new Float64Array(memory, at + from * 8, to - from);
  const planes = ([certain, possible]: SharedPlanes): Planes => ({
    certain: bits(certain),
    possible: bits(possible),
  });
  const columns = facts.map(({ fact, recorded, low, high, codes }) => {
    const byCode = new Map(codes.map(([code, own]) => [code, planes(own)]));
    const column: Column = { recorded: planes(recorded), low: ends(low), high: ends(high), codes: byCode };
    return [fact, { column, leaves: new Map<string, Planes>() }] as const;
  });
  return new Columns(plan, {
    cases: [],
    rows: to - from,
    columns,
    closed: closed.map(([set, own]) => [set, bits(own)] as const),
  });
}
