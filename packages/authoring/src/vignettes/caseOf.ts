import type { Case } from '@dwellset/core';
import type { Vignette, VignettesDocument } from '../documents/vignettes.ts';

/** The case of one vignette: the base patient, with what the variant states over it. */
export function caseOf(
  base: VignettesDocument['base'],
  vignette: Omit<Vignette, 'id' | 'title' | 'note' | 'expect'>,
): Case {
  const left = new Set(vignette.without);
  const kept = Object.entries(base.facts).filter(([fact]) => !left.has(fact));
  const recordedAt = vignette.recordedAt ?? base.recordedAt;
  const searched = vignette.searched ?? base.searched;
  const { chosen, responses } = vignette;
  return {
    asOf: vignette.asOf ?? base.asOf,
    timeZone: vignette.timeZone ?? base.timeZone,
    ...(recordedAt !== undefined && { recordedAt }),
    ...(searched && { searched }),
    facts: { ...Object.fromEntries(kept), ...vignette.facts },
    ...(chosen && { chosen }),
    ...(responses && { responses }),
  };
}
