import type { Reading } from '../facts/reading.ts';
import type { Leaf, Node, Plan } from '../plan/plan.ts';
import type { FactReading } from './assessment.ts';
import { factReading } from './factReading.ts';

/** The leaves of a plan by their places in the table of truths, worked out once a plan. */
export function leavesOf(plan: Plan): readonly (Leaf | undefined)[] {
  const known = leavesByPlan.get(plan);
  if (known) return known;
  const found = new Array<Leaf | undefined>(plan.size).fill(undefined);
  for (const { leaves } of [plan.patient, plan.option]) for (const leaf of leaves) found[leaf.at] = leaf;
  leavesByPlan.set(plan, found);
  return found;
}

const leavesByPlan = new WeakMap<Plan, readonly (Leaf | undefined)[]>();

/** What was read of the facts of one case, as plain JSON: put down once, however many conditions look at it. */
export class Shown {
  private readonly leafAt: readonly (Leaf | undefined)[];
  private readonly readings: ReadonlyMap<string, Reading>;
  private readonly byPlace: (FactReading | undefined)[];

  constructor(plan: Plan, readings: ReadonlyMap<string, Reading>) {
    this.leafAt = leavesOf(plan);
    this.readings = readings;
    this.byPlace = new Array<FactReading | undefined>(plan.patientFacts.slots.length).fill(undefined);
  }

  /** What the leaf looked at. */
  of(node: Extract<Node, { readonly kind: 'fact' }>): FactReading {
    const { place } = this.leafAt[node.at]!;
    const known = this.byPlace[place];
    if (known !== undefined) return known;
    const made = factReading(this.readings.get(node.fact)!);
    this.byPlace[place] = made;
    return made;
  }
}
