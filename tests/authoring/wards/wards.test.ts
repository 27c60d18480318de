import { burdenOf, simulateWard, type WardDocument, wardsOf } from '@dwellset/authoring';
import { describe, expect, test } from 'vitest';
import { library, planOf } from '../../policies/shipped.ts';

const invented: WardDocument = {
  $schema: 'urn:dwellset:ward:1',
  id: 'hill',
  title: 'An invented ward',
  timeZone: 'Europe/London',
  start: '2026-03-02T08:00:00Z',
  patients: 5,
  arriveWithinDays: 0,
  stayDays: [3, 3],
  stages: [
    {
      id: 'in',
      hours: [1, 1],
      instant: ['catheter.inserted-at'],
      facts: stageIs('in-place'),
      lateHours: [30, 30],
    },
    { id: 'out', after: 'in', hours: [40, 40], facts: stageIs('removed') },
    { id: 'never', hours: [2, 2], only: { 'catheter.stage': 'considered' }, facts: stageIs('considered') },
    {
      id: 'seen',
      hours: [2, 2],
      repeat: { hours: [10, 10], until: 'out' },
      instant: ['review.last-at'],
    },
  ],
};

function stageIs(value: string) {
  return { 'catheter.stage': { oneOf: [{ value }] } };
}

const stages = (ward: WardDocument, seed = 1) =>
  simulateWard(ward, seed)
    .filter(({ patient }) => patient === 1)
    .map(({ case: { facts } }) => (facts['catheter.stage'] as { value: string } | undefined)?.value);

describe('an invented ward', () => {
  test('shows a late entry only once it is charted, and the newest of what is charted', () => {
    expect(stages(invented)).toEqual([undefined, undefined, 'removed', 'removed']);
    expect(stages({ ...invented, stages: invented.stages.slice(0, 1) })).toEqual([
      undefined,
      undefined,
      'in-place',
      'in-place',
    ]);
  });

  test('repeats a stage until the one that ends it', () => {
    const last = simulateWard(invented, 1)
      .filter(({ patient }) => patient === 1)
      .at(-1)!;
    expect(last.case.facts['review.last-at']).toMatchObject({ value: '2026-03-03T16:00:00.000Z' });
  });

  test('what is never charted is not in the chart', () => {
    const uncharted = invented.stages.map((stage) => ({ ...stage, charted: 0 }));
    for (const { case: chart } of simulateWard({ ...invented, stages: uncharted }, 1)) {
      expect(chart.facts).toEqual({});
    }
  });

  test('is the same for the same seed and another for another', () => {
    const ward = wardsOf(library).get('surgical')!;
    const days = JSON.stringify(simulateWard(ward, 4));
    expect(JSON.stringify(simulateWard(structuredClone(ward), 4))).toBe(days);
    expect(JSON.stringify(simulateWard(ward, 5))).not.toBe(days);
  });

  test('the shipped one has gaps, late entries, removals and infections', () => {
    const ward = wardsOf(library).get('surgical')!;
    const charts = simulateWard(ward, 1).map(({ case: chart }) => chart.facts);
    const some = (holds: (facts: (typeof charts)[number]) => boolean) => {
      const count = charts.filter(holds).length;
      expect(count).toBeGreaterThan(0);
      expect(count).toBeLessThan(charts.length);
    };
    some((facts) => 'catheter.inserted-at' in facts);
    some((facts) => 'catheter.removed-at' in facts);
    some((facts) => 'infection.suspected' in facts);
    some((facts) => !('allergy.latex' in facts));
  });
});

describe('advice burden', () => {
  const plan = planOf(['removal']);
  const days = simulateWard(wardsOf(library).get('surgical')!, 1).slice(0, 40);
  const burden = burdenOf(plan, days);

  test('counts the same advice by rule, by indicator and by day', () => {
    const sum = (counts: readonly number[]) => counts.reduce((a, b) => a + b, 0);
    expect(burden.advice).toBeGreaterThan(0);
    expect(sum(burden.rules.map((rule) => rule.days))).toBe(burden.advice);
    expect(sum(burden.rules.map(({ repeats }) => repeats))).toBe(burden.repeats);
    expect(sum(Object.values(burden.byIndicator))).toBe(burden.advice);
    expect(sum(burden.byDay.map(({ advice }) => advice))).toBe(burden.advice);
    expect(sum(burden.byDay.map(({ patients }) => patients))).toBe(40);
  });

  test('the same day twice over is all repeats, and another patient starts afresh', () => {
    const day = days.find(
      ({ case: chart }) => burdenOf(plan, [{ patient: 1, day: 1, case: chart }]).advice > 0,
    )!;
    const twice = burdenOf(plan, [
      { ...day, patient: 1, day: 1 },
      { ...day, patient: 1, day: 2 },
      { ...day, patient: 2, day: 1 },
    ]);
    expect(twice.repeats).toBe(twice.advice / 3);
  });
});
