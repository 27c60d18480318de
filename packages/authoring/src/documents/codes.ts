import { z } from 'zod';
import { code, kebab, note, text } from './terms.ts';

/** Code → words; the order in the file is the order of the list. */
const codeList = z.record(code, text).meta({ id: 'code-list' });

/** `facts/codes.json`: the code lists that facts, parameters and tables share. */
export const codesDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:codes:1'),
  note,
  lists: z.record(kebab, codeList),
  /** Lists that a hospital may add its own codes to. */
  extensible: z.array(kebab).exactOptional(),
});
