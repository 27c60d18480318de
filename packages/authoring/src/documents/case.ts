import { z } from 'zod';
import { chosenItems, factValues, responses } from './caseValue.ts';
import { group, instant, note, text } from './terms.ts';

/** `hospitals/<id>/cases/*.case.json`: the facts of one invented patient at one moment. */
export const caseDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:case:1'),
  note,
  id: text.exactOptional(),
  asOf: instant,
  timeZone: text,
  recordedAt: instant.exactOptional(),
  searched: z.array(group).exactOptional(),
  facts: factValues,
  chosen: chosenItems.exactOptional(),
  responses: responses.exactOptional(),
});

export type CaseDocument = z.infer<typeof caseDocument>;
