import {
  burdenOf,
  simulateWard,
  WardBurdenCounter,
  WardChangesCounter,
  type WardDay,
  wardsOf,
} from '@dwellset/authoring';
import { assess, compile, judgeCases, type Plan, type Release, readCases } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { library, planOf } from '../../policies/shipped.ts';

const ward = wardsOf(library).get('surgical')!;
const days = simulateWard({ ...ward, patients: 12 }, 11);
const plan = planOf([...library.sets.keys()]);
const releases = plan.sets.map(({ release }) => release);

/** The published rules with another review interval. */
const edited = (release: Release): Release => {
  const { reads: _, ...rest } = release;
  return {
    ...rest,
    parameters: release.parameters.map((one) =>
      one.id === 'review.interval' ? { ...one, value: 12 } : one,
    ) as Release['parameters'],
  };
};
const ours = compile(releases.map(edited), { allow: ['draft'] });

/** Parts of an uneven size, so that a patient's days lie in two of them. */
const parts = <T>(all: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(all.length / size) }, (_, at) => all.slice(at * size, (at + 1) * size));

const judged = (by: Plan, part: readonly WardDay[]) =>
  judgeCases(
    by,
    readCases(
      by,
      part.map((day) => day.case),
    ),
  );

describe('a ward judged in columns', () => {
  test('counts the same burden as one assessment a day', () => {
    const counter = new WardBurdenCounter();
    for (const part of parts(days, 17)) counter.add(judged(plan, part), part);
    const { byIndicator, questions, byDay, ...counted } = burdenOf(plan, days);
    expect(counted.advice).toBeGreaterThan(0);
    expect(counter.total()).toEqual(counted);
    const sum = (values: readonly number[]) => values.reduce((all, one) => all + one, 0);
    expect(sum(counted.daysByAdvice)).toBe(counted.patientDays);
    expect(sum(counted.daysByAdvice.map((count, pieces) => count * pieces))).toBe(counted.advice);
  });

  test('counts the same changes, by direction, as assessing every day by both', () => {
    const counter = new WardChangesCounter();
    let first = 0;
    for (const part of parts(days, 17)) {
      counter.add(judged(plan, part), judged(ours, part), part, first);
      first += part.length;
    }
    const moves = new Map<string, number[]>();
    days.forEach(({ case: chart }, row) => {
      const outcomes = (by: Plan) =>
        assess(by, chart, { reasons: 'none' }).ruleSets.flatMap(({ id, rules }) =>
          rules.map(({ id: rule, outcome }) => ({ key: `${id}/${rule}`, outcome })),
        );
      const now = outcomes(ours);
      outcomes(plan).forEach(({ key, outcome }, at) => {
        if (now[at]!.outcome === outcome) return;
        const name = `${key} ${outcome} ${now[at]!.outcome}`;
        moves.set(name, [...(moves.get(name) ?? []), row]);
      });
    });
    const total = counter.total();
    const found = total.rules.flatMap(({ set, rule, moves: own }) =>
      own.map((move) => [`${set}/${rule} ${move.before} ${move.now}`, move.days] as const),
    );
    expect(new Map(found)).toEqual(new Map([...moves].map(([name, rows]) => [name, rows.length])));
    const rows = [...new Set([...moves.values()].flat())];
    expect(total.days).toBe(rows.length);
    expect(total.days).toBeGreaterThan(0);
    expect(total.patients).toBe(new Set(rows.map((row) => days[row]!.patient)).size);
    for (const { set, rule, moves: own } of total.rules)
      for (const { before, now, examples } of own)
        for (const row of examples) expect(moves.get(`${set}/${rule} ${before} ${now}`)).toContain(row);
  });
});
