import type { Readings } from '../facts/readings.ts';
import type { Leaf, Node, Plan } from '../plan/plan.ts';
import type { FactReading } from './assessment.ts';
import { factReading, numberReading } from './factReading.ts';

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
  private readonly readings: Readings;
  private readonly byPlace: (FactReading | undefined)[];

  constructor(plan: Plan, readings: Readings) {
    this.leafAt = leavesOf(plan);
    this.readings = readings;
    this.byPlace = new Array<FactReading | undefined>(plan.patientFacts.slots.length).fill(undefined);
  }

  /** What the leaf looked at. */
  of(node: Extract<Node, { readonly kind: 'fact' }>): FactReading {
    const { place } = this.leafAt[node.at]!;
    const known = this.byPlace[place];
    if (known !== undefined) return known;
    const made = this.made(place);
    this.byPlace[place] = made;
    return made;
  }

  /** Most facts are stated plainly: those are put down from what is kept, without a reading in full between. */
  private made(place: number): FactReading {
    const { readings } = this;
    const plain = readings.plainAt(place);
    if (plain === undefined) return factReading(readings.at(place)!);
    if (typeof plain === 'number') return numberReading(readings.factAt(place), plain, readings.recordedAt);
    return factReading(plain, readings.recordedAt);
  }
}
