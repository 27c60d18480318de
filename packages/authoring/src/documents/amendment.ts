import { z } from 'zod';
import { constant } from './condition.ts';
import { evidence } from './evidence.ts';
import { fact } from './facts.ts';
import { indicator, rule } from './rule.ts';
import { source } from './sources.ts';
import { stockList } from './stock.ts';
import { date, digestText, evidenceId, kebab, note, text, version } from './terms.ts';

/** A parameter's id, or `table/row/column`. */
const choicePath = z
  .string()
  .regex(/^[a-z]+\.[a-z][a-z0-9]*(-[a-z0-9]+)*(\/[a-z0-9]+([-.][a-z0-9]+)*\/[a-z0-9]+(-[a-z0-9]+)*)?$/)
  .meta({ id: 'choice-path' });

const setValue = z.union([constant, z.null()]).meta({ id: 'set-value' });
const cited = z.array(evidenceId).min(1).exactOptional();
const rewording = z
  .strictObject({
    rule: kebab,
    title: text.exactOptional(),
    summary: text.exactOptional(),
    detail: z.union([text, z.array(text).min(1)]).exactOptional(),
    because: text.exactOptional(),
  })
  .meta({ id: 'rewording' });
const addedText = z.strictObject({ rule: kebab, detail: z.array(text).min(1) }).meta({ id: 'added-text' });
const raised = z.strictObject({ rule: kebab, indicator }).meta({ id: 'raised' });

/** The changes an amendment may make, by the one key that tells them apart. */
export const changeSchemas = {
  set: z.strictObject({ set: z.record(choicePath, setValue), evidence: cited, reason: text, note }),
  switchOff: z.strictObject({ switchOff: kebab, reason: text, note }),
  replace: z.strictObject({ replace: rule, reason: text, note }),
  reword: z.strictObject({ reword: rewording, reason: text, note }),
  add: z.strictObject({ add: rule, after: kebab.exactOptional(), reason: text, note }),
  addText: z.strictObject({ addText: addedText, reason: text, note }),
  raise: z.strictObject({ raise: raised, reason: text, note }),
  stock: z.strictObject({ stock: stockList, reason: text, note }),
} as const;

const change = z
  .union([
    changeSchemas.set,
    changeSchemas.switchOff,
    changeSchemas.replace,
    changeSchemas.reword,
    changeSchemas.add,
    changeSchemas.addText,
    changeSchemas.raise,
    changeSchemas.stock,
  ])
  .meta({ id: 'change' });

const amended = z
  .strictObject({ set: kebab, version, digest: digestText, changes: z.array(change).min(1), note })
  .meta({ id: 'amended-set' });

/** `hospitals/<id>/amendment.json`: everything one hospital changes, each with its reason. */
export const amendmentDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:amendment:1'),
  note,
  id: kebab,
  version,
  organisation: text,
  approverRole: text,
  date,
  sources: z.array(source).exactOptional(),
  evidence: z.array(evidence).exactOptional(),
  facts: z.array(fact).exactOptional(),
  amends: z.array(amended),
});

export type AmendmentDocument = z.infer<typeof amendmentDocument>;
export type Change = z.infer<typeof change>;
export type AmendedSet = z.infer<typeof amended>;
