import { FALSE, not, type Plan, TRUE, type Truth, UNKNOWN } from '@dwellset/core';
import type { Decision, Occurrence } from './decisions.ts';
import { goal } from './goals.ts';
import type { Observation, Observed } from './observe.ts';
import { neverHolds, nothingKnown } from './prove.ts';
import type { ConditionCoverage, Proof } from './shape.ts';
import { reader } from './truths.ts';

/** The vignettes that bear on a decision: for the patient, or for each option of the lists it is read for. */
export const bearingOn = (observed: Observed, { kinds }: Decision): readonly Observation[] =>
  kinds.length === 0 ? observed.patient : kinds.flatMap((kind) => observed.options.get(kind) ?? []);

/**
 * The truth of a condition where it decides the outcome by itself: turned round, with all others as they are, it
 * would no longer give that outcome. Each condition stands once in its decision, so that wherever two such cases
 * differ in the truth of this one, whatever else differs between them is masked in one of the two.
 */
function decidesAlone({ outcome }: Decision, { node }: Occurrence, truths: Uint8Array): Truth | undefined {
  const truthOf = reader(truths);
  const own = truthOf(node);
  const decided = outcome(truthOf);
  if (own === UNKNOWN || decided === UNKNOWN) return undefined;
  return outcome(reader(truths, { node, truth: not(own) })) === decided ? undefined : own;
}

/** What the vignettes show of one condition: its truth values, and that it decides alone. */
export function coverCondition(
  plan: Plan,
  decision: Decision,
  occurrence: Occurrence,
  observations: readonly Observation[],
): ConditionCoverage {
  const { node, condition, place } = occurrence;
  const seen = new Set(observations.map(({ truths }) => reader(truths)(node)));
  const alone = (wanted: Truth): string | undefined =>
    observations.find(({ truths }) => decidesAlone(decision, occurrence, truths) === wanted)?.vignette;
  const [whenTrue, whenFalse] = [alone(TRUE), alone(FALSE)];
  const pair =
    whenTrue !== undefined && whenFalse !== undefined ? ([whenTrue, whenFalse] as const) : undefined;
  const is = (wanted: Truth) => (truths: Uint8Array) => reader(truths)(node) === wanted;
  const whetherTrue = goal('true', seen.has(TRUE), () => neverHolds(plan, [node], is(TRUE)));
  const whetherFalse = goal('false', seen.has(FALSE), () => neverHolds(plan, [node], is(FALSE)));
  return {
    home: decision.home,
    condition,
    place,
    goals: [
      whetherTrue,
      whetherFalse,
      goal('unknown', seen.has(UNKNOWN), () => neverUnknown(plan, (truths) => is(UNKNOWN)(truths))),
      // What is never true, or never false, cannot decide alone both ways, however much stands beside it.
      goal(
        'alone',
        pair !== undefined,
        () =>
          [whetherTrue, whetherFalse].reduce(
            (proof, { proof: never }) => proof ?? never,
            undefined as Proof | undefined,
          ) ?? neverAlone(plan, decision, occurrence),
      ),
    ],
    ...(pair && { pair }),
  };
}

/** What is not unknown while no fact is known never is: knowing more settles more. */
export function neverUnknown(plan: Plan, isUnknown: (truths: Uint8Array) => boolean): Proof | undefined {
  return isUnknown(nothingKnown(plan)) ? undefined : { combinations: 1, facts: [] };
}

function neverAlone(plan: Plan, decision: Decision, occurrence: Occurrence): Proof | undefined {
  const found = new Set<Truth>();
  return neverHolds(plan, decision.nodes, (truths) => {
    const decided = decidesAlone(decision, occurrence, truths);
    if (decided !== undefined) found.add(decided);
    return found.size === 2;
  });
}
