import type { Case, CaseValue, Derivation, Fact, ListValue } from '@dwellset/core';
import { compile, evaluate } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { base, readingOnly } from '../../published/facts.ts';

/** Lists of a chart, read only through their aggregates: what is not charted never counts as nothing. */
const VOLUMES: Fact = {
  ...base,
  id: 'urine.volumes',
  type: 'list',
  kind: 'measured',
  at: ['from', 'to'],
  staleAfter: 'PT2H',
  item: {
    from: { type: 'date-time', title: 'from' },
    to: { type: 'date-time', title: 'to' },
    volume: { type: 'number', unit: 'mL', limits: [0, 5000], title: 'volume' },
    hours: { type: 'number', unit: 'h', title: 'hours', from: { elapsed: { from: 'from', to: 'to' } } },
    rate: { type: 'number', unit: 'mL/h', title: 'rate', from: { ratio: ['volume', 'hours'] } },
  },
};
const RELIEVED: Fact = { ...base, id: 'urine.relieved-at', type: 'date-time' };
const PACK: Fact = {
  ...base,
  id: 'pack.items',
  type: 'list',
  kind: 'things',
  item: {
    item: { type: 'text', title: 'item' },
    'use-by': { type: 'date', title: 'use by', monthMeans: 'last-day' },
    intact: { type: 'boolean', title: 'intact' },
    'days-left': {
      type: 'number',
      unit: 'd',
      title: 'days left',
      from: { calendarDays: { from: 'asOf', to: 'use-by' } },
    },
  },
};
const TEMPERATURES: Fact = {
  ...base,
  id: 'vital.temperatures',
  type: 'list',
  kind: 'events',
  at: ['at'],
  item: {
    at: { type: 'date-time', title: 'at' },
    value: { type: 'number', unit: 'Cel', step: 0.1, limits: [30, 43], title: 'temperature' },
  },
};

interface Given {
  readonly asOf: string;
  readonly facts: Readonly<Record<string, CaseValue>>;
}

/** Low, high and recorded of one aggregate for one case. */
function read(unit: string, from: Derivation, { asOf, facts }: Given): readonly [number, number, string] {
  const own: Fact = { ...base, id: 'under.test', type: 'number', unit, from };
  const patient: Case = { asOf, timeZone: 'UTC', recordedAt: asOf, facts };
  const plan = compile([readingOnly([VOLUMES, RELIEVED, PACK, TEMPERATURES, own])], { allow: ['draft'] });
  const reading = evaluate(plan, patient).readings.get('under.test');
  if (reading?.bounds.kind !== 'interval') throw new Error('not a number');
  return [reading.bounds.low, reading.bounds.high, ['false', '', 'unknown', 'true'][reading.recorded] ?? ''];
}

const hour = (start: number, volume: number | null, hours = 1) => ({
  from: `2026-11-25T${String(start).padStart(2, '0')}:00:00Z`,
  to: `2026-11-25T${String(start + hours).padStart(2, '0')}:00:00Z`,
  volume: volume === null ? null : { value: volume, unit: 'mL' },
});
const charted = (asOf: string, volumes: ListValue | null, relieved = '2026-11-25T08:00:00Z'): Given => ({
  asOf,
  facts: { 'urine.relieved-at': relieved, 'urine.volumes': volumes },
});

describe('the longest run of high output after relief', () => {
  const run: Derivation = {
    longestRun: {
      of: 'urine.volumes',
      where: { field: 'rate', operator: 'greaterThanInclusive', value: 200 },
      within: { since: 'urine.relieved-at' },
    },
  };
  const hours = (given: Given) => read('h', run, given).slice(0, 2);

  it('counts two hours of exactly the limit, ended by a lower one', () => {
    const volumes = [hour(8, 150), hour(9, 200), hour(10, 200), hour(11, 90)];
    expect(hours(charted('2026-11-25T12:10:00Z', volumes))).toEqual([2, 2]);
  });

  it('leaves high, gap, high open: it may be a run of three and more', () => {
    const [low, high] = hours(charted('2026-11-25T11:10:00Z', [hour(8, 250), hour(10, 250)]));
    expect(low).toBe(1);
    expect(high).toBeCloseTo(3 + 1 / 6, 6);
  });

  it('proves a run although another hour is missing', () => {
    const [low] = hours(charted('2026-11-25T12:10:00Z', [hour(9, 300), hour(10, 260)]));
    expect(low).toBe(2);
  });

  it('takes an hour whose volume nobody read for possible, never for nothing', () => {
    const volumes = [hour(8, 250), hour(9, null), hour(10, 250), hour(11, 10)];
    expect(hours(charted('2026-11-25T12:00:00Z', volumes))).toEqual([1, 3]);
  });

  it('knows nothing of a list that nobody supplied', () => {
    const [low, high] = read('h', run, { asOf: '2026-11-25T12:00:00Z', facts: {} });
    expect([low, high]).toEqual([0, Infinity]);
  });
});

describe('the total since relief', () => {
  const sum: Derivation = {
    total: {
      of: 'urine.volumes',
      field: 'volume',
      within: { since: 'urine.relieved-at', last: { value: 24, unit: 'h' } },
    },
  };

  it('is proven by one long entry, and stays open upwards as long as time is not covered', () => {
    const day = {
      from: '2026-11-25T08:00:00Z',
      to: '2026-11-26T07:00:00Z',
      volume: { value: 3100, unit: 'mL' },
    };
    expect(read('mL', sum, charted('2026-11-26T07:10:00Z', [day])).slice(0, 2)).toEqual([3100, Infinity]);
  });

  it('as charted up to the last entry, is exact in between and unknown once that entry is too old', () => {
    const upTo: Derivation = {
      total: {
        of: 'urine.volumes',
        field: 'volume',
        within: { last: { value: 2, unit: 'h' }, until: 'newest' },
      },
    };
    const volumes = [hour(8, 150), hour(9, 200)];
    expect(read('mL', upTo, charted('2026-11-25T11:30:00Z', volumes)).slice(0, 2)).toEqual([350, 350]);
    expect(read('mL', upTo, charted('2026-11-25T12:30:00Z', volumes)).slice(0, 2)).toEqual([
      -Infinity,
      Infinity,
    ]);
  });

  it('is exact where every hour is charted up to now', () => {
    expect(
      read('mL', sum, charted('2026-11-25T10:00:00Z', [hour(8, 150), hour(9, 200)])).slice(0, 2),
    ).toEqual([350, 350]);
  });

  it('counts an entry that straddles the start only as possible', () => {
    const given = charted('2026-11-25T10:00:00Z', [hour(7, 400, 2), hour(9, 100)]);
    expect(read('mL', sum, given).slice(0, 2)).toEqual([100, 500]);
  });
});

describe('items of a pack', () => {
  const least: Derivation = { least: { of: 'pack.items', field: 'days-left' } };
  const damaged: Derivation = {
    count: { of: 'pack.items', where: { field: 'intact', operator: 'equal', value: false } },
  };
  const pack = (items: ListValue | null, asOf = '2026-11-25T23:30:00Z'): Given => ({
    asOf,
    facts: { 'pack.items': items },
  });
  const item = (useBy: string | null, intact: boolean | null = true) => ({
    item: 'catheter',
    'use-by': useBy,
    intact,
  });

  it('has no day left on the printed day, and is past it a second after midnight', () => {
    expect(read('d', least, pack([item('2026-11-25'), item('2027-04')])).slice(0, 2)).toEqual([0, 0]);
    expect(read('d', least, pack([item('2026-11-25')], '2026-11-26T00:00:01Z')).slice(0, 2)).toEqual([
      -1, -1,
    ]);
  });

  it('takes a month without a day for good to its last day', () => {
    expect(read('d', least, pack([item('2026-11')], '2026-11-30T12:00:00Z')).slice(0, 2)).toEqual([0, 0]);
  });

  it('is settled by one expired item although another date cannot be read', () => {
    const [, high] = read('d', least, pack([item(null), item('2026-10-31')]));
    expect(high).toBeLessThan(0);
  });

  it('is not settled by one good item beside an unreadable one', () => {
    const [low, high] = read('d', least, pack([item(null), item('2027-10-31')]));
    expect(low).toBe(-Infinity);
    expect(high).toBe(340);
  });

  it('counts damaged items, open ones only as possible', () => {
    expect(read('1', damaged, pack([item(null, false), item(null, null), item(null)])).slice(0, 2)).toEqual([
      1, 2,
    ]);
  });

  it('counts none in an empty list, and may count any in one that is not complete', () => {
    expect(read('1', damaged, pack([]))).toEqual([0, 0, 'true']);
    expect(read('1', damaged, pack({ items: [], complete: false })).slice(0, 2)).toEqual([0, Infinity]);
    expect(read('1', damaged, pack(null))).toEqual([0, Infinity, 'false']);
  });

  it('has no least value without items: more than any number', () => {
    expect(read('d', least, pack([])).slice(0, 2)).toEqual([Infinity, Infinity]);
  });
});

describe('temperatures', () => {
  const at = (time: string, value: number) => ({
    at: `2026-11-25T${time}:00Z`,
    value: { value, unit: 'Cel' },
  });
  const chart = (...items: ReturnType<typeof at>[]): Given => ({
    asOf: '2026-11-25T12:00:00Z',
    facts: { 'vital.temperatures': items },
  });
  const twice: Derivation = {
    greatest: {
      of: 'vital.temperatures',
      field: 'value',
      rank: 2,
      within: { last: { value: 12, unit: 'h' } },
    },
  };
  const last: Derivation = { newest: { of: 'vital.temperatures', field: 'value' } };

  it('says "twice" by the second greatest', () => {
    expect(
      read('Cel', twice, chart(at('02:00', 38.4), at('06:00', 37), at('10:00', 38.1))).slice(0, 2),
    ).toEqual([38.1, 38.1]);
    expect(read('Cel', twice, chart(at('10:00', 38.1))).slice(0, 2)).toEqual([-Infinity, -Infinity]);
  });

  it('reads the newest entry in any order of the list', () => {
    expect(read('Cel', last, chart(at('10:00', 38.1), at('02:00', 37)))).toEqual([38.1, 38.1, 'true']);
  });

  it('does not use an entry that says it lies ahead', () => {
    const [low, high] = read('Cel', last, chart(at('13:00', 39)));
    expect([low, high]).not.toEqual([39, 39]);
  });
});
