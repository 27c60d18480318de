import type { CaseValue } from '@dwellset/core';
import type { Facts } from './scene.ts';

/** Leaves out one fact after the other for as long as `holds` stays true; none that is left can be spared. */
export function smallest(facts: Facts, holds: (facts: Facts) => boolean): Facts {
  let kept: Readonly<Record<string, CaseValue>> = facts;
  for (let last = -1; last !== Object.keys(kept).length; ) {
    last = Object.keys(kept).length;
    for (const fact of Object.keys(kept)) {
      const { [fact]: _, ...fewer } = kept;
      if (holds(fewer)) kept = fewer;
    }
  }
  return kept;
}
