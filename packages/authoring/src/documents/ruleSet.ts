import { z } from 'zod';
import { condition } from './condition.ts';
import { fact } from './facts.ts';
import { date, kebab, note, text, version } from './terms.ts';

const conclusion = z.strictObject({ id: kebab, title: text, note }).meta({ id: 'conclusion' });

/** `<set>/ruleset.json`: what holds for a whole set, and its rules in order. */
export const ruleSetDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:rule-set:1'),
  note,
  id: kebab,
  version,
  status: z.enum(['draft', 'active', 'retired']),
  /** Why nobody should run this version any more. */
  withdrawn: z.strictObject({ reason: text, replacement: text.exactOptional() }).exactOptional(),
  /** BCP 47 language of the texts. */
  language: text,
  title: text,
  intendedUse: text,
  users: text,
  exclusions: z.array(text),
  limits: z.array(text),
  effectivePeriod: z.strictObject({ start: date.exactOptional(), end: date.exactOptional() }).exactOptional(),
  shape: z.enum(['advice', 'decision', 'checklist', 'choice']),
  population: z.strictObject({ when: condition, otherwise: text }).exactOptional(),
  scope: condition.exactOptional(),
  conclusions: z.array(conclusion).min(1).exactOptional(),
  defaultConclusion: conclusion.exactOptional(),
  /** Topics of `choices/` whose parameters and tables the set uses. */
  uses: z.array(kebab),
  conditions: z.record(kebab, condition),
  derived: z.array(fact),
  /** Choice sets: the stock lists. */
  stock: z.array(kebab).exactOptional(),
  rules: z.array(kebab),
});
