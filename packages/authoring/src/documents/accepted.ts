import { z } from 'zod';
import { FINDING_KINDS } from '../analysis/shape.ts';
import { digestText, kebab, note, text } from './terms.ts';

/** `accepted/<set>.json`, of the policies or of a hospital: findings of the analysis that may stay, each with its reason. */
export const acceptedDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:accepted:1'),
  note,
  set: kebab,
  accepted: z.array(
    z
      .strictObject({
        finding: z.enum(FINDING_KINDS),
        /** What it is about, as the analysis names it. */
        of: z.array(text).min(1),
        /** Of everything that the finding rests on, as the analysis prints it: a changed rule is not accepted. */
        digest: digestText,
        reason: text,
        note,
      })
      .meta({ id: 'accepted-finding' }),
  ),
});
