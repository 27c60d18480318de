import { z } from 'zod';
import { factValues } from './caseValue.ts';
import { kebab, note, text } from './terms.ts';

const stockItem = z
  .strictObject({ id: kebab, title: text, facts: factValues, note })
  .meta({ id: 'stock-item' });

const stockFields = { of: kebab, title: text, options: z.array(stockItem).min(1) };

/** A stock list as an amendment states it, inside its document. */
export const stockList = z.strictObject(stockFields).meta({ id: 'stock-list' });

/** `<set>/stock/<kind>.json`: what there is to choose from. */
export const stockDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:stock:1'),
  note,
  ...stockFields,
});
