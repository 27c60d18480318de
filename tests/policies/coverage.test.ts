import { coverage, runVignettes, type SetCoverage } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { library } from './shipped.ts';

const results = runVignettes(library);
const { sets } = coverage(library);

/** Whole percents that the vignettes of each set reached; a change of the rules may not let them sink. */
const FLOORS: Readonly<Record<string, Readonly<Record<keyof SetCoverage['totals'], number>>>> = {
  'catheter-choice': { outcomes: 100, truths: 100, alone: 100, limits: 100, options: 100 },
  indication: { outcomes: 100, truths: 100, alone: 100, limits: 100, options: 100 },
  'insertion-bundle': { outcomes: 100, truths: 100, alone: 100, limits: 100, options: 100 },
  'maintenance-bundle': { outcomes: 100, truths: 100, alone: 100, limits: 100, options: 100 },
  removal: { outcomes: 100, truths: 100, alone: 100, limits: 100, options: 100 },
};

const lockedIn = (set: string): ReadonlySet<string> =>
  new Set([...(library.sets.get(set)?.rules ?? [])].flatMap(([id, { value }]) => (value.locked ? [id] : [])));

describe('the vignettes of the shipped rules', () => {
  it('come out as each of them expects', () => {
    expect(results.length).toBeGreaterThan(0);
    expect(results.filter(({ passed }) => !passed)).toEqual([]);
  });

  it('are counted for every set', () => {
    expect(sets.map(({ set }) => set).sort()).toEqual(Object.keys(FLOORS).sort());
    expect(sets.filter(({ refused }) => refused !== undefined)).toEqual([]);
  });

  it.each(sets.map((one) => [one.set, one] as const))('cover %s as far as they did', (set, { totals }) => {
    const floors = Object.entries(FLOORS[set] ?? {});
    expect(floors).toHaveLength(Object.keys(totals).length);
    for (const [total, floor] of floors) {
      expect(totals[total as keyof typeof totals].percent, total).toBeGreaterThanOrEqual(floor);
    }
  });

  it('show of every condition of a hard stop that it decides alone, unless that is proven impossible', () => {
    const ofStops = sets.flatMap(({ set, conditions }) => {
      const locked = lockedIn(set);
      return conditions.filter(({ home }) => 'rule' in home && locked.has(home.rule));
    });
    const alone = ofStops.flatMap(({ home, goals }) =>
      goals.filter(({ what }) => what === 'alone').map(({ state }) => ({ home, state })),
    );
    expect(alone.length).toBeGreaterThan(0);
    expect(alone.filter(({ state }) => state === 'uncovered')).toEqual([]);
  });
});
