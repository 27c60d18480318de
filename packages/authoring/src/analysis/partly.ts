import { type CaseValue, type Fact, type Truth, UNKNOWN } from '@dwellset/core';
import type { Scene } from '../boxes/scene.ts';
import type { Value, Variable } from '../boxes/variables.ts';

/** Beyond this the values of one fact are not put together. */
const MOST_VALUES = 40;

/** The known values of a number or time from the lowest to the highest; nothing of other facts. */
export function inOrder({ type }: Fact, { values }: Variable): readonly Value[] {
  if (type !== 'number' && type !== 'date' && type !== 'date-time') return [];
  return knownOf(values).sort((a, b) => onScale(a.value!) - onScale(b.value!));
}

const knownOf = (values: readonly Value[]): Value[] =>
  values.filter(({ value }) => value !== undefined && value !== null);

function onScale(value: CaseValue): number {
  if (typeof value === 'object' && value !== null && 'value' in value) return onScale(value.value);
  return typeof value === 'string' ? Date.parse(value) : Number(value);
}

/**
 * A fact may also be known in part: a day without its time, a sum of which one part is missing, a value "above 40". A
 * comparison is then unknown where the values that are left differ in it. These have no value to state, so that what
 * only they show remains unsettled.
 */
export function withPartlyKnown(scene: Scene, variable: Variable): Variable {
  const { fact, values } = variable;
  const known = knownOf(values);
  if (known.length > MOST_VALUES) return { ...variable, complete: false };
  const sorted = inOrder(scene.fact(fact), variable);
  const seen = new Set(values.map(({ truths }) => truths.join()));
  const partly: Value[] = [];
  const add = (truths: readonly Truth[]): void => {
    if (!seen.has(truths.join())) partly.push({ value: undefined, truths });
    seen.add(truths.join());
  };
  known.forEach((_, from) => {
    // From one value up to another, or of what has no order any two.
    let truths = (sorted[from] ?? known[from]!).truths;
    for (const other of (sorted.length > 0 ? sorted : known).slice(from + 1)) {
      const base = sorted.length > 0 ? truths : known[from]!.truths;
      truths = base.map((truth, index) => (truth === other.truths[index] ? truth : UNKNOWN));
      add(truths);
    }
  });
  return { ...variable, values: [...values, ...partly] };
}
