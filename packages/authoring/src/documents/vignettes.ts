import { z } from 'zod';
import { chosenItems, factValues, responses } from './caseValue.ts';
import { factId, group, instant, kebab, note, text } from './terms.ts';

const truthWord = z.enum(['true', 'false', 'unknown']).meta({ id: 'truth-word' });

/** Outcomes of a rule, and the words of a checklist. */
const outcomeWord = z
  .enum([
    'applies',
    'does-not-apply',
    'undetermined',
    'not-in-scope',
    'switched-off',
    'met',
    'not-met',
    'not-recorded',
    'not-applicable',
  ])
  .meta({ id: 'outcome-word' });

const count = z.int().min(0);
const counts = z.tuple([count, count]);
const factIds = z.array(factId);
const optionState = z.enum(['open', 'to-confirm', 'held', 'ruled-out']).meta({ id: 'option-state' });

/** The item in the hand: how it stands, and the rules that exclude it, prefer it and remark on it, in rule order. */
const itemInHand = z
  .strictObject({
    state: optionState.exactOptional(),
    excludedBy: z.array(kebab).exactOptional(),
    preferredBy: z.array(kebab).exactOptional(),
    remarks: z.array(kebab).exactOptional(),
  })
  .meta({ id: 'item-in-hand' });

/** What a vignette must give; every part is optional. */
const expectation = z
  .strictObject({
    rules: z.record(kebab, outcomeWord).exactOptional(),
    speaks: z.array(kebab).exactOptional(),
    deciding: z.record(kebab, factIds).exactOptional(),
    ask: factIds.exactOptional(),
    conclusion: z
      .strictObject({ id: kebab, settled: z.boolean(), possible: z.array(kebab).exactOptional() })
      .exactOptional(),
    compliance: z
      .strictObject({ all: truthWord, met: counts.exactOptional(), of: counts.exactOptional() })
      .exactOptional(),
    options: z.record(kebab, z.record(kebab, optionState)).exactOptional(),
    /** By stock list and option, the rules that remark on it: exactly these, in rule order. */
    remarks: z.record(kebab, z.record(kebab, z.array(kebab))).exactOptional(),
    /** By stock list. */
    chosen: z.record(kebab, itemInHand).exactOptional(),
    first: z.record(kebab, kebab).exactOptional(),
    provisional: z.record(kebab, z.boolean()).exactOptional(),
    nothingLeft: z.record(kebab, z.array(kebab)).exactOptional(),
    summary: z.record(kebab, text).exactOptional(),
    problems: z.record(factId, kebab).exactOptional(),
  })
  .meta({ id: 'expectation' });

const vignette = z
  .strictObject({
    id: kebab,
    title: text,
    note,
    asOf: instant.exactOptional(),
    timeZone: text.exactOptional(),
    recordedAt: instant.exactOptional(),
    searched: z.array(group).exactOptional(),
    facts: factValues.exactOptional(),
    /** Facts of the base patient that this variant does not have. */
    without: factIds.exactOptional(),
    chosen: chosenItems.exactOptional(),
    responses: responses.exactOptional(),
    expect: expectation,
  })
  .meta({ id: 'vignette' });

/** `<set>/<rule>.vignettes.json`: a base patient and its variants. */
export const vignettesDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:vignettes:1'),
  note,
  base: z.strictObject({
    note,
    asOf: instant,
    timeZone: text,
    recordedAt: instant.exactOptional(),
    searched: z.array(group).exactOptional(),
    facts: factValues,
  }),
  vignettes: z.array(vignette).min(1),
});

export type VignettesDocument = z.infer<typeof vignettesDocument>;
export type Vignette = z.infer<typeof vignette>;
export type Expectation = z.infer<typeof expectation>;
