import { z } from 'zod';
import { caseValue } from './caseValue.ts';
import { band, factId, instant, kebab, note, text } from './terms.ts';

const share = z.number().min(0).max(1);
const weighted = z
  .strictObject({ value: caseValue, weight: z.number().positive().exactOptional() })
  .meta({ id: 'weighted-value' });

/** How one fact comes out: one of some values by weight, or a number between two ends. */
const draw = z
  .strictObject({
    oneOf: z.array(weighted).min(1).exactOptional(),
    between: band.exactOptional(),
    step: z.number().positive().exactOptional(),
    unit: text.exactOptional(),
    /** How often somebody writes it down; always unless stated. */
    charted: share.exactOptional(),
  })
  .meta({ id: 'draw' });

/** Something that happens to a patient, and what is charted of it. */
const stage = z
  .strictObject({
    id: kebab,
    note,
    /** The stage it follows; the admission where absent. */
    after: kebab.exactOptional(),
    chance: share.exactOptional(),
    /** Hours after that stage, from and to. */
    hours: band,
    /** Only where this was last true of the patient, charted or not. */
    only: z.record(factId, z.union([z.boolean(), z.string()])).exactOptional(),
    /** Happens again after so many hours, until another stage has happened or the patient leaves. */
    repeat: z.strictObject({ hours: band, until: kebab.exactOptional() }).exactOptional(),
    /** Facts that are the instant at which it happened. */
    instant: z.array(factId).exactOptional(),
    facts: z.record(factId, draw).exactOptional(),
    charted: share.exactOptional(),
    /** How long after it happened it stands in the chart, from and to. */
    lateHours: band.exactOptional(),
  })
  .meta({ id: 'ward-stage' });

/** `wards/<id>.json`: how the patients of an invented ward come, are cared for and charted, and leave. */
export const wardDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:ward:1'),
  note,
  id: kebab,
  title: text,
  timeZone: text,
  /** The first round; one every 24 hours after it. */
  start: instant,
  patients: z.int().min(1).max(1000),
  /** Patients come within so many days of the first round. */
  arriveWithinDays: z.number().min(0).max(366),
  /** Days from admission to leaving, from and to. */
  stayDays: band,
  stages: z.array(stage).min(1),
});

export type WardDocument = z.infer<typeof wardDocument>;
export type WardStage = z.infer<typeof stage>;
export type WardDraw = z.infer<typeof draw>;
