import { type Case, compile, evaluate, explain, type Release } from '@dwellset/core';
import { expect, test } from 'vitest';
import { referenceAssess } from '../reference/assess.ts';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

const codes = {
  conclusions: { supported: 'supported', none: 'none' },
  materials: { pvc: 'PVC', other: 'other' },
};
const facts = [
  makeFact('a.adult', { type: 'boolean' }),
  makeFact('a.reason', { type: 'boolean' }),
  makeFact('a.material', { type: 'code', codes: 'materials' }),
  makeFact('a.dwell', {
    type: 'number',
    unit: 'd',
    from: { lookup: { table: 'dwell.longest', key: 'a.material', column: 'days' } },
  }),
];
const tables = [
  {
    id: 'dwell.longest',
    key: 'materials',
    title: 'dwell',
    columns: { days: { type: 'number', unit: 'd' } },
    rows: { pvc: { days: { value: 7 } } },
    otherwise: { days: null },
  },
] as const;
const concluded = makeFact('conclusion.indication', {
  type: 'code',
  codes: 'conclusions',
  from: { conclusion: 'indication' },
});

/** A set that concludes, and one with a rule on what it concludes. */
function pair(indication: Partial<Release> & Pick<Release, 'rules'>): Release[] {
  const deciding = makeRelease({
    id: 'indication',
    shape: 'decision',
    conclusions: [{ id: 'supported', title: 'supported' }],
    defaultConclusion: { id: 'none', title: 'none' },
    facts,
    codes,
    tables,
    ...indication,
  });
  const rules = [
    makeRule('is-supported', { when: leaf(concluded.id, 'equal', 'supported') }),
    makeRule('is-recorded', { when: leaf(concluded.id, 'recorded') }),
  ];
  return [deciding, makeRelease({ id: 'removal', facts: [...facts, concluded], codes, tables, rules })];
}

function outcomes(releases: Release[], given: Case['facts']) {
  const patient = makeCase(given);
  const evaluation = evaluate(compile(releases, { allow: ['draft'] }), patient);
  const rules = explain(evaluation).ruleSets[1]?.rules.map(({ id, outcome }) => [id, outcome]) ?? [];
  const core = Object.fromEntries(rules);
  expect(core).toEqual(referenceAssess(releases, patient).sets[1]?.rules);
  return core;
}

const reason = makeRule('reason', { when: leaf('a.reason', 'equal', true), concludes: 'supported' });

test('a settled conclusion is an exact fact for another set', () => {
  const applies = { 'is-supported': 'applies', 'is-recorded': 'applies' };
  expect(outcomes(pair({ rules: [reason] }), { 'a.reason': true })).toEqual(applies);
});

test('a provisional conclusion may still be either', () => {
  const open = { 'is-supported': 'undetermined', 'is-recorded': 'undetermined' };
  expect(outcomes(pair({ rules: [reason] }), {})).toEqual(open);
});

test('a conclusion that may come although the patient is outside the population is not yet a fact', () => {
  const population = { when: leaf('a.adult', 'equal', true), otherwise: 'adults only' };
  const releases = pair({ population, rules: [{ ...reason, anyPopulation: true }] });
  expect(outcomes(releases, { 'a.adult': false })['is-supported']).toBe('undetermined');
});

test('a conclusion that waits for a value no table gives is open, not absent', () => {
  const long = makeRule('long', { when: leaf('a.dwell', 'greaterThan', 5), concludes: 'supported' });
  const found = outcomes(pair({ rules: [long] }), { 'a.material': 'other' });
  expect(found).toEqual({ 'is-supported': 'undetermined', 'is-recorded': 'undetermined' });
});
