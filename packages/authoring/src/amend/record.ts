import { type AmendmentRecord, digest } from '@dwellset/core';
import { gather } from '../build/gather.ts';
import type { Parts } from '../build/parts.ts';
import { usedBySet } from '../build/used.ts';
import type { AmendmentDocument } from '../documents/amendment.ts';
import { valueText } from './cautious.ts';
import type { ChoiceMade } from './setChoice.ts';
import type { RecordedChange } from './workpiece.ts';

/** What the amended release says of its origin; nothing where nothing in it is changed. */
export function recordOf(
  amendment: AmendmentDocument,
  base: Parts,
  amended: Parts,
  recorded: readonly RecordedChange[],
  choices: readonly ChoiceMade[],
): AmendmentRecord | undefined {
  const used = usedBySet(amended);
  const chosen = choices.filter(({ id }) => used.parameters.has(id) || used.tables.has(id));
  const { release } = gather(base);
  if (release === undefined || recorded.length + chosen.length === 0) return undefined;
  const { id, version, organisation, approverRole, date } = amendment;
  return {
    id,
    version,
    organisation,
    approverRole,
    date,
    base: { version: release.version, digest: digest(release) },
    changes: [
      ...chosen.map(({ path, from, to, reason }) => ({
        item: path,
        change: 'set',
        from: valueText(from),
        to: valueText(to),
        reason,
      })),
      ...recorded,
    ],
  };
}
