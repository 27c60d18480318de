import { z } from 'zod';
import { kebab, note, text } from './terms.ts';

const risk = z
  .strictObject({
    severity: z.enum(['Minor', 'Significant', 'Considerable', 'Major', 'Catastrophic']),
    likelihood: z.enum(['Very low', 'Low', 'Medium', 'High', 'Very high']),
    risk: z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]),
  })
  .meta({ id: 'risk' });

/** `set/name` */
const control = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*\/[a-z0-9]+(-[a-z0-9]+)*$/)
  .meta({ id: 'control' });

/** One entry of the hazard log. */
export const hazard = z
  .strictObject({
    id: kebab,
    title: text,
    description: text,
    causes: z.array(text),
    effect: text,
    harm: text,
    controls: z.array(control),
    initial: risk,
    residual: risk,
    owner: text,
    status: z.enum(['open', 'transferred', 'closed']),
    note,
  })
  .meta({ id: 'hazard' });

/** `hazards.json`: the hazard log. */
export const hazardsDocument = z.strictObject({
  $schema: z.literal('urn:dwellset:hazards:1'),
  note,
  hazards: z.array(hazard),
});
