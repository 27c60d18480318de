import { type Case, type CaseValue, compile } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SETS } from './support/sets.ts';

const absent = (reason: 'asked-unknown' | 'not-performed' | 'error'): CaseValue => ({ absent: reason });
const gap = fc.constantFrom<CaseValue | undefined>(
  undefined,
  undefined,
  null,
  absent('asked-unknown'),
  absent('not-performed'),
  absent('error'),
);
const mostly = (...values: readonly CaseValue[]) =>
  fc.oneof({ weight: 3, arbitrary: fc.constantFrom(...values) }, { weight: 1, arbitrary: gap });
const millilitres = (value: number, comparator?: '<' | '>'): CaseValue =>
  comparator ? { value, unit: 'mL', comparator } : { value, unit: 'mL' };

/** Cases as a ward charts them: exact, within bounds, refused, looked for in vain, never supplied. */
const facts = fc.record({
  'allergy.latex': mostly(true, false),
  'patient.adult': mostly(true, true, true, false),
  'catheter.in-use': mostly(true, true, true, false),
  'urine.scan': mostly(
    millilitres(0),
    millilitres(400),
    millilitres(401),
    millilitres(399, '>'),
    millilitres(900, '<'),
    millilitres(9000),
    400,
  ),
  'catheter.material': mostly('pvc', 'latex', 'silicone', 'wood'),
  'infection.signs': mostly(
    [],
    ['rigors'],
    ['dysuria'],
    { yes: [], no: ['rigors', 'dysuria', 'flank-pain'] },
    { yes: ['flank-pain'], no: ['rigors'] },
  ),
  'pack.use-by': mostly('2026-11-24', '2026-11-25', '2026-12-01', 'soon'),
  'catheter.inserted-at': mostly(
    '2026-11-20T12:00:00Z',
    '2026-11-20',
    '2026-11-18',
    '2026-10-01T00:00:00Z',
    '2026-12-24T00:00:00Z',
  ),
  'record.inserter': mostly('somebody'),
});
const hand = fc.constantFrom<Case['chosen'] | undefined>(
  undefined,
  { catheter: 'latex-12' },
  { catheter: 'no-such-item' },
  { catheter: { 'option.material': 'latex' } },
);
const cases = fc
  .record({ facts, hand, searched: fc.subarray(['urine', 'catheter', 'allergy', 'record']) })
  .map(
    ({ facts, hand, searched }): Case => ({
      asOf: '2026-11-25T12:00:00Z',
      timeZone: 'Europe/London',
      recordedAt: '2026-11-25T11:00:00Z',
      searched,
      facts: Object.fromEntries(
        Object.entries(facts).filter(([, value]) => value !== undefined),
      ) as Case['facts'],
      ...(hand ? { chosen: hand } : {}),
    }),
  );

describe('both engines give the same answer for any case', () => {
  test.each(SETS.map((set) => [set.shape, set] as const))('%s', async (_shape, set) => {
    const plan = compile([set], { allow: ['draft'] });
    await fc.assert(
      fc.asyncProperty(cases, async (patient) => {
        const { disagreements, compared } = await crossCheck(plan, patient);
        expect(disagreements).toEqual([]);
        expect(compared).toBeGreaterThan(set.rules.length);
      }),
      { numRuns: 150 },
    );
  });

  test('all sets together in one plan, cases at once', async () => {
    const plan = compile(SETS, { allow: ['draft'] });
    const checked = await Promise.all(
      fc.sample(cases, { numRuns: 40, seed: 7 }).map((patient) => crossCheck(plan, patient)),
    );
    expect(checked.flatMap(({ disagreements }) => disagreements)).toEqual([]);
  });
});
