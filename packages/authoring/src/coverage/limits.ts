import { type Fact, type Leaf, type Plan, TRUE } from '@dwellset/core';
import type { Decision } from './decisions.ts';
import { goal } from './goals.ts';
import type { Observation } from './observe.ts';
import { gridOf, isPossible, onGrid, resolutionOf } from './resolution.ts';
import type { LimitCoverage, LimitGoal } from './shape.ts';
import { reader } from './truths.ts';

const SIDES: readonly LimitGoal[] = ['below', 'at', 'above'];

/** Which side of the limit a value lies on, if it lies no further from it than one step. */
function sideOf(value: number, limit: number, step: number): LimitGoal | undefined {
  if (value === limit) return 'at';
  // Steps such as 0.1 are no exact binary numbers.
  if (Math.abs(value - limit) > step * (1 + 1e-6)) return undefined;
  return value < limit ? 'below' : 'above';
}

/** The value of the fact nearest to the limit on one side, were it allowed. */
function nearest(fact: Fact, limit: number, step: number, side: LimitGoal): number {
  const grid = gridOf(fact);
  if (side === 'at') return limit;
  const by = side === 'below' ? -1 : 1;
  if (grid === undefined) return limit + (by * step) / 2;
  const exact = limit / grid;
  return onGrid(side === 'below' ? Math.ceil(exact - 1e-9) - 1 : Math.floor(exact + 1e-9) + 1, grid);
}

/**
 * The limits that a decision compares numbers, days or instants with: met just below, at and just above by patients
 * of whom it is asked.
 */
export function coverLimits(
  plan: Plan,
  decision: Decision,
  observations: readonly Observation[],
): LimitCoverage[] {
  const leaves = new Map<number, Leaf>(
    [...plan.patient.leaves, ...plan.option.leaves].map((leaf) => [leaf.at, leaf]),
  );
  const asked = observations.filter(({ truths }) => decision.asked(reader(truths)) === TRUE);
  return decision.occurrences.flatMap(({ node, condition, place }): LimitCoverage[] => {
    const leaf = node.kind === 'fact' ? leaves.get(node.at) : undefined;
    const fact = leaf && plan.facts.get(leaf.fact);
    if (fact === undefined || leaf?.test.kind !== 'compare') return [];
    const limit = leaf.test.to;
    const step = resolutionOf(fact);
    const met = new Set(
      asked.flatMap(({ readings }) => {
        const bounds = readings.get(fact.id)?.bounds;
        return bounds?.kind === 'interval' && bounds.low === bounds.high
          ? [sideOf(bounds.low, limit, step)]
          : [];
      }),
    );
    const goals = SIDES.map((side) =>
      goal(side, met.has(side), () =>
        isPossible(fact, nearest(fact, limit, step, side))
          ? undefined
          : { combinations: 1, facts: [fact.id] },
      ),
    );
    return [{ home: decision.home, fact: fact.id, limit, step, condition, place, goals }];
  });
}
