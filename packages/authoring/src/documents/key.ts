import { STATUSES } from '@dwellset/core';
import { z } from 'zod';
import { chosenItems, factValues } from './caseValue.ts';
import { code, evidenceId, factId, group, instant, kebab, note, text } from './terms.ts';

const rows = z.array(evidenceId).min(1);

/** The published answer, in terms of what rules come to and rest on, never of one rule's name. */
const answer = z
  .strictObject({
    /** A set concludes one of these. */
    conclusion: z.strictObject({ set: kebab, is: z.array(kebab).min(1) }).exactOptional(),
    /** Some rule of the set that rests on one of these rows gives advice, or none does. */
    advice: z.strictObject({ set: kebab, restsOn: rows, speaks: z.boolean() }).exactOptional(),
    /** A check that rests on one of these rows is met, or is not. */
    check: z.strictObject({ set: kebab, restsOn: rows, is: z.enum(['met', 'not-met']) }).exactOptional(),
    /** The item in the hand is ruled out, or is not. */
    chosen: z.strictObject({ set: kebab, of: kebab, ruledOut: z.boolean() }).exactOptional(),
    /** A local choice with a position that rests on one of these rows has this value. */
    choice: z
      .strictObject({
        restsOn: rows,
        unit: text.exactOptional(),
        value: z.union([z.number(), z.boolean(), code, z.array(code)]),
      })
      .exactOptional(),
    /** One unit in terms of another, rounded as it is printed. */
    converts: z
      .strictObject({
        value: z.number(),
        unit: text,
        to: text,
        gives: z.number(),
        rounding: z.enum(['up', 'nearest']),
        step: z.number().positive(),
      })
      .exactOptional(),
  })
  .meta({ id: 'key-answer' });

const keyCase = z
  .strictObject({
    id: kebab,
    /** The published row, where it has an id among the evidence or the rows that are not carried. */
    row: evidenceId.exactOptional(),
    /** Where the source of the key is not the one that says this. */
    source: kebab.exactOptional(),
    locator: text,
    status: z.enum(STATUSES),
    /** What was published, in our own words. */
    says: text,
    note,
    asOf: instant.exactOptional(),
    timeZone: text.exactOptional(),
    recordedAt: instant.exactOptional(),
    searched: z.array(group).exactOptional(),
    facts: factValues.exactOptional(),
    without: z.array(factId).exactOptional(),
    chosen: chosenItems.exactOptional(),
    answer,
    /** Why the rules come to something else, where that is meant. */
    differs: text.exactOptional(),
  })
  .meta({ id: 'key-case' });

/** `published/<key>.key.json`: answers that somebody outside the project gave, with the patient of each. */
export const keyDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:key:1'),
  note,
  id: kebab,
  title: text,
  source: kebab,
  base: z.strictObject({
    note,
    asOf: instant,
    timeZone: text,
    recordedAt: instant.exactOptional(),
    searched: z.array(group).exactOptional(),
    facts: factValues,
  }),
  cases: z.array(keyCase).min(1),
});

export type KeyDocument = z.infer<typeof keyDocument>;
export type KeyCase = z.infer<typeof keyCase>;
