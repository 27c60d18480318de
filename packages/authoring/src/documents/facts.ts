import { z } from 'zod';
import { derivation } from './derivation.ts';
import { listParts } from './list.ts';
import { band, duration, factId, group, kebab, note, text } from './terms.ts';

const coding = z.strictObject({ system: text, code: text, display: text }).meta({ id: 'coding' });

/** One entry of the fact dictionary, or a fact that a rule set derives for itself. */
export const fact = z
  .strictObject({
    id: factId,
    type: z.enum(['boolean', 'number', 'code', 'codes', 'date', 'date-time', 'text', 'list']),
    unit: text.exactOptional(),
    step: z.number().positive().exactOptional(),
    decimals: z.int().min(0).max(6).exactOptional(),
    limits: band.exactOptional(),
    usual: band.exactOptional(),
    staleAfter: duration.exactOptional(),
    codes: kebab.exactOptional(),
    unlisted: z.enum(['no', 'unknown']).exactOptional(),
    monthMeans: z.literal('last-day').exactOptional(),
    notBefore: factId.exactOptional(),
    ...listParts,
    title: text,
    question: text,
    phrases: z.strictObject({ true: text, false: text }).exactOptional(),
    codings: z.array(coding).min(1).exactOptional(),
    from: derivation.exactOptional(),
    note,
  })
  .meta({ id: 'fact' });

/** `facts/<group>.json`: one group of the dictionary, in the order in which facts are asked for. */
export const factsDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:facts:1'),
  note,
  group,
  order: z.int(),
  title: text,
  facts: z.array(fact),
});
