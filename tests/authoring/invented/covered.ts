import { coverage, type Goal, type Library, type SetCoverage } from '@dwellset/authoring';
import { expect } from 'vitest';

/** What is covered of the one set of a small library. */
export const coveredIn = (library: Library): SetCoverage => {
  const [set] = coverage(library, { set: 'care' }).sets;
  if (set === undefined) throw new Error('the small library holds one set');
  expect(set.refused).toBeUndefined();
  return set;
};

/** What is left of some goals, in their order. */
export const left = (goals: readonly Goal[], state: Goal['state'] = 'uncovered'): string[] =>
  goals.filter((goal) => goal.state === state).map(({ what }) => what);

/** Whether each condition, in document order, was shown to decide alone. */
export const alone = ({ conditions }: SetCoverage): (string | undefined)[] =>
  conditions.map(({ goals }) => goals.find(({ what }) => what === 'alone')?.state);
