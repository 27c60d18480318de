import { z } from 'zod';
import { kebab, note, text } from './terms.ts';

/** One entry of the source register. */
export const source = z
  .strictObject({
    id: kebab,
    kind: z.enum([
      'guideline',
      'standard',
      'study',
      'label',
      'regulation',
      'teaching',
      'local-policy',
      'practice',
    ]),
    body: text,
    title: text,
    year: z.int().min(1800).max(2200).exactOptional(),
    edition: text.exactOptional(),
    note,
  })
  .meta({ id: 'source' });

/** `sources.json`: the source register, sorted by id. */
export const sourcesDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:sources:1'),
  note,
  sources: z.array(source),
});
