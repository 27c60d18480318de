import { ABSENT_REASONS } from '@dwellset/core';
import { z } from 'zod';
import { code, factId, instant, kebab, text } from './terms.ts';

const answers = z
  .strictObject({ yes: z.array(code).exactOptional(), no: z.array(code).exactOptional() })
  .meta({ id: 'answers' });

const bareValue = z
  .union([z.boolean(), z.number(), z.string(), z.array(code), answers])
  .meta({ id: 'bare-value' });

const statedValue = z
  .strictObject({
    value: bareValue,
    unit: text.exactOptional(),
    at: instant.exactOptional(),
    from: text.exactOptional(),
    comparator: z.enum(['<', '<=', '>', '>=']).exactOptional(),
    confirmed: z.boolean().exactOptional(),
  })
  .meta({ id: 'stated-value' });

const absent = z.strictObject({ absent: z.enum(ABSENT_REASONS) }).meta({ id: 'absent' });

/** One entry of a list: field → value. */
const listItem = z
  .record(kebab, z.union([z.null(), bareValue, statedValue, absent]))
  .meta({ id: 'list-item' });

/** The entries of a list; an empty one says that there are none. */
const listValue = z
  .union([
    z.array(listItem),
    z.strictObject({ items: z.array(listItem), complete: z.boolean().exactOptional() }),
  ])
  .meta({ id: 'list-value' });

/** What a case may say about one fact. */
export const caseValue = z
  .union([z.null(), bareValue, statedValue, listValue, absent])
  .meta({ id: 'case-value' });

export const factValues = z.record(factId, caseValue).meta({ id: 'fact-values' });

/** The item in the hand, by stock list: an option's id, or its attributes. */
export const chosenItems = z.record(kebab, z.union([kebab, factValues])).meta({ id: 'chosen-items' });

const response = z
  .strictObject({ advice: text, reason: text, comment: text.exactOptional(), until: instant })
  .meta({ id: 'advice-response' });

export const responses = z.array(response);
