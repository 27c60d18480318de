import { describe, expect, it } from 'vitest';
import { coveredIn, left } from './invented/covered.ts';
import { small, yes } from './invented/small.ts';

describe('limits', () => {
  const limits = (when: object, ...hours: number[]) =>
    coveredIn(
      small({
        rule: { when },
        vignettes: hours.map((value) => ({ 'care.hours': { value, unit: 'h' } })),
      }),
    ).limits.map(({ goals }) => left(goals));

  it('are met one step below, at and one step above', () => {
    const when = { fact: 'care.hours', operator: 'greaterThan', value: { parameter: 'care.longest' } };
    expect(limits(when, 47, 48, 49)).toEqual([[]]);
    expect(limits(when, 46, 50)).toEqual([['below', 'at', 'above']]);
  });

  it('need no value that the fact cannot have', () => {
    const set = coveredIn(
      small({
        rule: { when: { fact: 'care.hours', operator: 'greaterThan', value: 0 } },
        vignettes: [{ 'care.hours': { value: 0, unit: 'h' } }],
      }),
    );
    expect(set.limits[0]!.goals.map(({ state }) => state)).toEqual(['impossible', 'covered', 'uncovered']);
  });

  it('are met within a minute where time passes by the clock', () => {
    const seen = (...times: string[]) =>
      coveredIn(
        small({
          rule: { when: { fact: 'care.since', operator: 'greaterThanInclusive', value: 12 } },
          vignettes: times.map((time) => ({ 'care.at': time })),
        }),
      ).limits.map(({ goals }) => left(goals));
    // The patients are seen at noon.
    expect(seen('2030-03-01T00:01:00Z', '2030-03-01T00:00:00Z', '2030-02-28T23:59:30Z')).toEqual([[]]);
    expect(seen('2030-03-01T00:02:00Z', '2030-02-28T23:58:00Z')).toEqual([['below', 'at', 'above']]);
  });

  it('count only in patients of whom the rule asks', () => {
    const set = coveredIn(
      small({
        rule: { scope: yes('care.pain'), when: { fact: 'care.hours', operator: 'greaterThan', value: 9 } },
        vignettes: [8, 9, 10].map((value) => ({
          'care.pain': value === 9,
          'care.hours': { value, unit: 'h' },
        })),
      }),
    );
    expect(left(set.limits[0]!.goals)).toEqual(['below', 'above']);
  });
});
