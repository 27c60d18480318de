import { z } from 'zod';
import { evidenceId, note, text } from './terms.ts';

/** Why a published row gives no evidence here. */
const reason = z
  .enum(['paediatric', 'suprapubic', 'display-only', 'organisational', 'other-set', 'superseded', 'unclear'])
  .meta({ id: 'not-carried-reason' });

/** `evidence/not-carried.json`: the rows that were read and left out, each with its reason. */
export const notCarriedDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:not-carried:1'),
  note,
  rows: z.array(
    z.strictObject({ id: evidenceId, why: reason, sentence: text, note }).meta({ id: 'not-carried-row' }),
  ),
});
