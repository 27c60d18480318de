import { INDICATORS } from '@dwellset/core';
import { z } from 'zod';
import { condition } from './condition.ts';
import { evidenceId, factId, kebab, note, text } from './terms.ts';

export const indicator = z.enum(INDICATORS).meta({ id: 'indicator' });

const ruleAdvice = z
  .strictObject({
    summary: text,
    detail: z.union([text, z.array(text).min(1)]).exactOptional(),
    indicator,
    suggestions: z.array(z.strictObject({ label: text })).exactOptional(),
    overrideReasons: z.array(z.strictObject({ code: kebab, display: text })).exactOptional(),
  })
  .meta({ id: 'rule-advice' });

/** A preference between options: those that meet a condition, or the lowest of a number. */
const preference = z
  .union([z.strictObject({ options: condition }), z.strictObject({ lowest: factId })])
  .meta({ id: 'preference' });

const ruleFields = {
  id: kebab,
  title: text,
  scope: condition.exactOptional(),
  when: condition.exactOptional(),
  expect: condition.exactOptional(),
  advice: ruleAdvice.exactOptional(),
  concludes: kebab.exactOptional(),
  of: kebab.exactOptional(),
  excludes: condition.exactOptional(),
  prefers: preference.exactOptional(),
  remarks: condition.exactOptional(),
  because: text,
  evidence: z.array(evidenceId),
  hazards: z.array(kebab).exactOptional(),
  locked: z.boolean().exactOptional(),
  anyPopulation: z.boolean().exactOptional(),
  supersedes: z.array(kebab).exactOptional(),
  note,
};

/** A rule as an amendment states it, inside its document. */
export const rule = z.strictObject(ruleFields).meta({ id: 'rule' });

/** `<set>/<rule>.rule.json` */
export const ruleDocument = z.strictObject({ $schema: z.literal('urn:dwellset:rule:1'), ...ruleFields });
