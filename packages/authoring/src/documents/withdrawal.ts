import { z } from 'zod';
import { date, digestText, kebab, note, text, version } from './terms.ts';

/** `withdrawals/<set>-<version>.json`: a released version that must no longer be used, and why. */
export const withdrawalDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:withdrawal:1'),
  note,
  id: kebab,
  version,
  /** Of the released text. */
  digest: digestText,
  date,
  approverRole: text,
  reason: text,
  /** Version of the same set to use instead. */
  replacement: version.exactOptional(),
});
