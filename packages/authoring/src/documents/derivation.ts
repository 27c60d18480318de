import type { Derivation } from '@dwellset/core';
import { z } from 'zod';
import { parameterReference } from './condition.ts';
import { listDerivations } from './list.ts';
import { factId, kebab, text } from './terms.ts';

/** A fact id, or `asOf`: the moment of the case. */
const momentOrFact = z.union([factId, z.literal('asOf')]).meta({ id: 'moment-or-fact' });

const operand = z
  .union([momentOrFact, parameterReference, z.strictObject({ value: z.number(), unit: text })])
  .meta({ id: 'operand' });

const operands = z.array(operand).min(2);
const span = z.strictObject({ from: momentOrFact, to: momentOrFact }).meta({ id: 'span' });

const band = z
  .strictObject({
    of: factId,
    cuts: z.array(z.number()).min(1),
    codes: z.array(kebab).min(2),
    atCut: z.union([z.enum(['upper', 'lower']), parameterReference]).exactOptional(),
  })
  .meta({ id: 'band-of' });

/** How a fact follows from other facts, by the one key that tells the kinds apart. */
export const derivationSchemas = {
  elapsed: z.strictObject({ elapsed: span }),
  calendarDays: z.strictObject({ calendarDays: span }),
  localHour: z.strictObject({ localHour: z.strictObject({ at: momentOrFact }) }),
  difference: z.strictObject({ difference: z.tuple([operand, operand]) }),
  sum: z.strictObject({ sum: operands }),
  product: z.strictObject({ product: operands }),
  ratio: z.strictObject({ ratio: operands }),
  lowest: z.strictObject({ lowest: z.array(factId).min(2) }),
  highest: z.strictObject({ highest: z.array(factId).min(2) }),
  firstRecorded: z.strictObject({ firstRecorded: z.array(factId).min(2) }),
  lookup: z.strictObject({ lookup: z.strictObject({ table: factId, key: factId, column: kebab }) }),
  band: z.strictObject({ band }),
  countCodes: z.strictObject({
    countCodes: z.strictObject({ of: factId, in: z.union([z.array(kebab).min(1), parameterReference]) }),
  }),
  conclusion: z.strictObject({ conclusion: kebab }),
  ...listDerivations,
} as const;

export const derivation: z.ZodType<Derivation> = z
  .union([
    derivationSchemas.elapsed,
    derivationSchemas.calendarDays,
    derivationSchemas.localHour,
    derivationSchemas.difference,
    derivationSchemas.sum,
    derivationSchemas.product,
    derivationSchemas.ratio,
    derivationSchemas.lowest,
    derivationSchemas.highest,
    derivationSchemas.firstRecorded,
    derivationSchemas.lookup,
    derivationSchemas.band,
    derivationSchemas.countCodes,
    derivationSchemas.conclusion,
    derivationSchemas.count,
    derivationSchemas.total,
    derivationSchemas.least,
    derivationSchemas.greatest,
    derivationSchemas.newest,
    derivationSchemas.longestRun,
  ])
  .meta({ id: 'derivation' });
