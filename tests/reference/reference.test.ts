import type { Case, Fact } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { referenceAssess } from './assess.ts';
import { startOfDay } from './dates.ts';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from './release.ts';
import { makeWorld } from './world.ts';

const materials = { pvc: 'PVC', latex: 'latex', silicone: 'silicone', other: 'other' };
const volume = makeFact('urine.scan', {
  type: 'number',
  unit: 'mL',
  limits: [0, 3000],
  usual: [0, 1500],
  staleAfter: 'PT2H',
  step: 1,
});
const inserted = makeFact('catheter.inserted-at', { type: 'date-time' });
const removed = makeFact('catheter.removed-at', { type: 'date-time', notBefore: 'catheter.inserted-at' });
const label = makeFact('catheter.label-dwell', { type: 'number', unit: 'd', limits: [1, 400] });
const material = makeFact('catheter.material', { type: 'code', codes: 'materials' });
const signs = makeFact('infection.signs', { type: 'codes', codes: 'materials', unlisted: 'no' });
const derived = {
  table: makeFact('catheter.table-dwell', {
    type: 'number',
    unit: 'd',
    from: { lookup: { table: 'dwell.longest', key: 'catheter.material', column: 'days' } },
  }),
  dwell: makeFact('catheter.longest-dwell', {
    type: 'number',
    unit: 'd',
    from: { firstRecorded: ['catheter.label-dwell', 'catheter.table-dwell'] },
  }),
  days: makeFact('catheter.days-in', {
    type: 'number',
    unit: 'd',
    limits: [0, 4000],
    from: { calendarDays: { from: 'catheter.inserted-at', to: 'asOf' } },
  }),
  hours: makeFact('catheter.hours-in', {
    type: 'number',
    unit: 'h',
    limits: [0, 9000],
    step: 0.1,
    from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
  }),
  share: makeFact('urine.share', {
    type: 'number',
    unit: 'mL/h',
    from: { ratio: ['urine.scan', 'catheter.hours-in'] },
  }),
  count: makeFact('infection.count', {
    type: 'number',
    unit: '1',
    from: { countCodes: { of: 'infection.signs', in: ['pvc', 'latex'] } },
  }),
  band: makeFact('urine.band', {
    type: 'code',
    codes: 'bands',
    from: { band: { of: 'urine.scan', cuts: [100, 400], codes: ['low', 'mid', 'high'] } },
  }),
};
const release = makeRelease({
  rules: [],
  facts: [volume, inserted, removed, label, material, signs, ...Object.values(derived)],
  codes: { materials, bands: { low: 'low', mid: 'mid', high: 'high' } },
  tables: [
    {
      id: 'dwell.longest',
      key: 'materials',
      title: 'dwell',
      columns: { days: { type: 'number', unit: 'd' } },
      rows: {
        pvc: { days: { value: 7 } },
        latex: { days: { value: 28 } },
        silicone: { days: { value: 84 } },
      },
      otherwise: { days: null },
    },
  ],
});
const know = (facts: Case['facts'], id: string, parts: Partial<Case> = {}) =>
  makeWorld([release], makeCase(facts, parts)).know(id);
const mL = (value: number, more: object = {}) => ({ value, unit: 'mL', ...more });

describe('a supplied value', () => {
  test.each([
    ['a volume with its unit', { 'urine.scan': mL(120.4) }, { low: 120, high: 120, recorded: 'true' }],
    [
      'a bare volume',
      { 'urine.scan': 120 },
      { low: 0, high: 3000, recorded: 'unknown', cause: 'wrong-unit' },
    ],
    ['a volume in text', { 'urine.scan': 'much' }, { recorded: 'unknown', cause: 'wrong-type' }],
    [
      'more than the scanner shows',
      { 'urine.scan': mL(999, { comparator: '>' }) },
      { low: 999, high: 3000, cause: 'within-bounds' },
    ],
    [
      'an unusual volume',
      { 'urine.scan': mL(2000) },
      { low: 0, high: 3000, cause: 'unusual', recorded: 'unknown' },
    ],
    [
      'a confirmed unusual volume',
      { 'urine.scan': mL(2000, { confirmed: true }) },
      { low: 2000, high: 2000 },
    ],
    ['an impossible volume', { 'urine.scan': mL(3001) }, { cause: 'impossible', recorded: 'unknown' }],
    [
      'an old scan',
      { 'urine.scan': mL(1, { at: '2026-11-25T06:59:59Z' }) },
      { cause: 'stale', recorded: 'true', high: 3000 },
    ],
    [
      'a scan from later',
      { 'urine.scan': mL(1, { at: '2026-11-25T09:00:01Z' }) },
      { cause: 'conflicting', recorded: 'unknown' },
    ],
    [
      'a scan that was not done',
      { 'urine.scan': { absent: 'not-performed' } },
      { cause: 'not-performed', recorded: 'false' },
    ],
    [
      'a scan that is hidden',
      { 'urine.scan': { absent: 'masked' } },
      { cause: 'masked', recorded: 'unknown' },
    ],
    ['a null', { 'urine.scan': null }, { cause: 'nothing-recorded', recorded: 'false' }],
    ['nothing', {}, { cause: 'not-supplied', recorded: 'unknown' }],
  ])('reads %s', (_, facts, expected) =>
    expect(know(facts as Case['facts'], 'urine.scan')).toMatchObject(expected),
  );

  test('without a time cannot be fresh', () => {
    const { recordedAt: _, ...bare } = makeCase({ 'urine.scan': mL(1) });
    expect(makeWorld([release], bare).know('urine.scan')).toMatchObject({
      cause: 'undated',
      recorded: 'true',
    });
  });
  test('missing from a searched group is nothing recorded', () =>
    expect(know({}, 'urine.scan', { searched: ['urine'] })).toMatchObject({
      recorded: 'false',
      cause: 'nothing-recorded',
    }));
  test('removal before insertion leaves both conflicting', () => {
    const facts = { 'catheter.inserted-at': '2026-11-24T09:00:00Z', 'catheter.removed-at': '2026-11-23' };
    expect(know(facts, 'catheter.inserted-at').cause).toBe('conflicting');
    expect(know(facts, 'catheter.removed-at').cause).toBe('conflicting');
  });
  test('a date without a time is a local day, cut at the moment of the case', () =>
    expect(know({ 'catheter.inserted-at': '2026-11-25' }, 'catheter.inserted-at')).toMatchObject({
      low: Date.parse('2026-11-25T00:00:00Z'),
      high: Date.parse('2026-11-25T09:00:00Z'),
    }));
  test.each([
    ['Africa/Cairo', '2026-04-24', '2026-04-23T22:00:00Z'],
    ['America/Havana', '2026-11-01', '2026-11-01T04:00:00Z'],
    ['Australia/Lord_Howe', '2026-04-05', '2026-04-04T13:00:00Z'],
  ])('the day of the clock change in %s begins where it begins', (zone, date, start) =>
    expect(startOfDay(Date.parse(date) / 86_400_000, zone)).toBe(Date.parse(start)),
  );
});

describe('a derived value', () => {
  test.each([
    [
      'hours since a day without a time',
      'catheter.hours-in',
      { 'catheter.inserted-at': '2026-11-24' },
      { low: 9, high: 33 },
    ],
    ['hours since nobody knows when', 'catheter.hours-in', {}, { low: 0, high: 9000, recorded: 'unknown' }],
    [
      'calendar days',
      'catheter.days-in',
      { 'catheter.inserted-at': '2026-11-24' },
      { low: 1, high: 1, recorded: 'true' },
    ],
    [
      'a table by an unknown key',
      'catheter.table-dwell',
      { 'catheter.material': null },
      { recorded: 'false', low: -Infinity },
    ],
    [
      'a table without an entry',
      'catheter.table-dwell',
      { 'catheter.material': 'other' },
      { none: true, recorded: 'false', cause: 'no-entry' },
    ],
    [
      'the label before the table',
      'catheter.longest-dwell',
      { 'catheter.label-dwell': { value: 29, unit: 'd' }, 'catheter.material': 'pvc' },
      { low: 29, high: 29 },
    ],
    [
      'the table where the label was looked for',
      'catheter.longest-dwell',
      { 'catheter.label-dwell': null, 'catheter.material': 'pvc' },
      { low: 7, high: 7 },
    ],
    [
      'label or table while the label was not asked',
      'catheter.longest-dwell',
      { 'catheter.material': 'pvc' },
      { low: 1, high: 400, recorded: 'true' },
    ],
    ['a share of an unknown time', 'urine.share', { 'urine.scan': mL(90) }, { low: 0.01, high: Infinity }],
    ['signs, some open', 'infection.count', { 'infection.signs': { yes: ['pvc'] } }, { low: 1, high: 2 }],
    ['signs, the rest no', 'infection.count', { 'infection.signs': ['pvc', 'other'] }, { low: 1, high: 1 }],
    ['a band at its cut', 'urine.band', { 'urine.scan': mL(400) }, { may: ['high'] }],
    [
      'a band of a bound',
      'urine.band',
      { 'urine.scan': mL(399, { comparator: '<' }) },
      { may: ['low', 'mid'] },
    ],
  ])('gives %s', (_, id, facts, expected) =>
    expect(know(facts as Case['facts'], id)).toMatchObject(expected),
  );

  test('that is also supplied and differs is conflicting', () =>
    expect(
      know(
        { 'catheter.table-dwell': { value: 9, unit: 'd' }, 'catheter.material': 'pvc' },
        'catheter.table-dwell',
      ),
    ).toMatchObject({
      cause: 'conflicting',
      recorded: 'unknown',
    }));
});

describe('a rule set', () => {
  const flag = (id: string): Fact => makeFact(id, { type: 'boolean' });
  const yes = (id: string) => leaf(id, 'equal', true);
  const outcomes = (
    facts: Case['facts'],
    rules: Parameters<typeof makeRelease>[0]['rules'],
    parts: object = {},
  ) =>
    referenceAssess(
      [makeRelease({ facts: ['a.one', 'a.two', 'a.adult'].map(flag), rules, ...parts })],
      makeCase(facts),
    ).sets[0];
  const adults = { population: { when: yes('a.adult'), otherwise: 'adults only' } };

  test('stays silent but undetermined where only the scope is open', () => {
    const rules = [makeRule('r', { scope: yes('a.one'), when: yes('a.two') })];
    expect(outcomes({ 'a.two': true }, rules)?.rules).toEqual({ r: 'undetermined' });
    expect(outcomes({ 'a.two': false }, rules)?.rules).toEqual({ r: 'does-not-apply' });
    expect(outcomes({ 'a.one': false }, rules)?.rules).toEqual({ r: 'not-in-scope' });
  });
  test('gives its locked advice while the population is not established', () => {
    const rules = [
      makeRule('locked', { when: yes('a.one'), locked: true }),
      makeRule('plain', { when: yes('a.one') }),
      makeRule('anybody', { when: yes('a.one'), anyPopulation: true }),
    ];
    expect(outcomes({ 'a.one': true }, rules, adults)?.rules).toEqual({
      locked: 'applies',
      plain: 'undetermined',
      anybody: 'applies',
    });
    expect(outcomes({ 'a.one': true, 'a.adult': false }, rules, adults)?.rules).toEqual({
      locked: 'not-in-scope',
      plain: 'not-in-scope',
      anybody: 'applies',
    });
  });
  test('counts checks as ranges and tells not recorded from not asked', () => {
    const rules = [
      makeRule('one', { expect: yes('a.one') }),
      makeRule('two', { scope: yes('a.adult'), expect: yes('a.two') }),
    ];
    const set = outcomes({ 'a.one': null, 'a.two': true }, rules, { shape: 'checklist' });
    expect(set?.checks).toEqual({ one: 'not-recorded', two: 'met' });
    expect(set?.compliance).toEqual({ all: 'unknown', met: [1, 2], of: [2, 2] });
    expect(outcomes({}, rules, { shape: 'checklist' })?.checks).toEqual({
      one: 'undetermined',
      two: 'undetermined',
    });
  });
  test('settles a conclusion only below no open one of higher precedence', () => {
    const shape = {
      shape: 'decision',
      conclusions: [
        { id: 'a', title: 'A' },
        { id: 'b', title: 'B' },
      ],
      defaultConclusion: { id: 'c', title: 'C' },
    };
    const rules = [
      makeRule('one', { when: yes('a.one'), concludes: 'a' }),
      makeRule('two', { when: yes('a.two'), concludes: 'b' }),
    ];
    expect(outcomes({ 'a.two': true }, rules, shape)?.conclusion).toEqual({
      id: 'b',
      settled: false,
      possible: ['a', 'b'],
    });
    expect(outcomes({ 'a.one': true }, rules, shape)?.conclusion).toEqual({
      id: 'a',
      settled: true,
      possible: ['a'],
    });
    expect(outcomes({ 'a.one': false }, rules, shape)?.conclusion).toEqual({
      id: 'c',
      settled: false,
      possible: ['b', 'c'],
    });
  });
  test('names the fewest rules that leave no option', () => {
    const size = makeFact('option.size', { type: 'number', unit: '[Ch]', limits: [4, 30] });
    const rules = [10, 14, 30].map((most) =>
      makeRule(`below-${most}`, {
        of: 'catheter',
        when: yes('a.one'),
        excludes: leaf('option.size', 'lessThan', most),
      }),
    );
    const stock = {
      catheter: [8, 12].map((value) => ({
        id: `size-${value}`,
        title: `${value}`,
        facts: { 'option.size': { value, unit: '[Ch]' } },
      })),
    };
    const set = outcomes({ 'a.one': true }, rules, { shape: 'choice', stock, facts: [flag('a.one'), size] });
    expect(set?.options?.catheter).toMatchObject({ nothingLeft: ['below-14'], ranks: {} });
    const open = outcomes({}, rules, { shape: 'choice', stock, facts: [flag('a.one'), size] });
    expect(open?.options?.catheter).toMatchObject({
      provisional: true,
      ranks: { 'size-8': 1, 'size-12': 1 },
    });
  });
});
