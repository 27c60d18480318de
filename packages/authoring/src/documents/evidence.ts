import { STATUSES } from '@dwellset/core';
import { z } from 'zod';
import { evidenceId, kebab, note, text } from './terms.ts';

const evidenceItem = z
  .strictObject({
    source: kebab,
    locator: text,
    grade: text,
    strength: z.enum(['strong', 'weak']).exactOptional(),
    status: z.enum(STATUSES),
    note,
  })
  .meta({ id: 'evidence-item' });

/** One statement in our own words, resting on one or more sources. */
export const evidence = z
  .strictObject({
    id: evidenceId,
    statement: text,
    from: z.array(evidenceItem).min(1),
    derivedFrom: z.array(evidenceId).exactOptional(),
    note,
  })
  .meta({ id: 'evidence' });

/** `evidence/<topic>.json` */
export const evidenceDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:evidence:1'),
  note,
  topic: kebab,
  evidence: z.array(evidence),
});
