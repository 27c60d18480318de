import { z } from 'zod';
import { date, digestText, kebab, note, text, version } from './terms.ts';

const adopted = z
  .strictObject({ id: kebab, version, digest: digestText, note })
  .meta({ id: 'adopted-release' });

/** `hospitals/<id>/adoption.json`: which releases a hospital takes on. */
export const adoptionDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:adoption:1'),
  note,
  id: kebab,
  organisation: text,
  approverRole: text,
  date,
  reviewDue: date,
  releases: z.array(adopted),
});

export type AdoptionDocument = z.infer<typeof adoptionDocument>;
