import { z } from 'zod';
import { operator, rightSide } from './condition.ts';
import { band, factId, kebab, text } from './terms.ts';

/** A field of the same item, or `asOf`: the moment of the case. */
const fieldOrMoment = kebab.or(z.literal('asOf')).meta({ id: 'field-or-moment' });
const span = z.strictObject({ from: fieldOrMoment, to: fieldOrMoment }).meta({ id: 'item-span' });
const operand = z
  .union([kebab, z.strictObject({ value: z.number(), unit: text })])
  .meta({ id: 'item-operand' });

/** How a field follows from other fields of its item, by the one key that tells the kinds apart. */
export const itemDerivationSchemas = {
  elapsed: z.strictObject({ elapsed: span }),
  calendarDays: z.strictObject({ calendarDays: span }),
  difference: z.strictObject({ difference: z.tuple([operand, operand]) }),
  sum: z.strictObject({ sum: z.array(operand).min(2) }),
  product: z.strictObject({ product: z.array(operand).min(2) }),
  ratio: z.strictObject({ ratio: z.array(operand).min(2) }),
} as const;

const itemDerivation = z
  .union([
    itemDerivationSchemas.elapsed,
    itemDerivationSchemas.calendarDays,
    itemDerivationSchemas.difference,
    itemDerivationSchemas.sum,
    itemDerivationSchemas.product,
    itemDerivationSchemas.ratio,
  ])
  .meta({ id: 'item-derivation' });

const itemField = z
  .strictObject({
    type: z.enum(['boolean', 'number', 'code', 'date', 'date-time', 'text']),
    title: text,
    unit: text.exactOptional(),
    step: z.number().positive().exactOptional(),
    limits: band.exactOptional(),
    codes: kebab.exactOptional(),
    monthMeans: z.literal('last-day').exactOptional(),
    from: itemDerivation.exactOptional(),
  })
  .meta({ id: 'item-field' });

/** What makes a fact a list: whether its entries have a time, which fields that is, and all its fields. */
export const listParts = {
  kind: z.enum(['events', 'measured', 'things']).exactOptional(),
  at: z.array(kebab).min(1).max(2).exactOptional(),
  item: z.record(kebab, itemField).exactOptional(),
} as const;

const fieldLeaf = z
  .strictObject({ field: kebab, operator, value: rightSide.exactOptional() })
  .meta({ id: 'field-leaf' });
const all = z
  .strictObject({
    get all() {
      return z.array(fieldCondition).min(1);
    },
  })
  .meta({ id: 'field-all' });
const any = z
  .strictObject({
    get any() {
      return z.array(fieldCondition).min(1);
    },
  })
  .meta({ id: 'field-any' });
const not = z
  .strictObject({
    get not() {
      return fieldCondition;
    },
  })
  .meta({ id: 'field-not' });

/** A condition over the fields of one item. */
const fieldCondition = z.union([all, any, not, fieldLeaf]).meta({ id: 'field-condition' });

const window = z
  .strictObject({
    since: factId.exactOptional(),
    last: z
      .union([z.strictObject({ parameter: factId }), z.strictObject({ value: z.number(), unit: text })])
      .exactOptional(),
    newest: z.int().min(1).exactOptional(),
    until: z.enum(['asOf', 'newest']).exactOptional(),
  })
  .meta({ id: 'window' });

const items = { of: factId, where: fieldCondition.exactOptional(), within: window.exactOptional() } as const;
const itemsField = z.strictObject({ ...items, field: kebab });

/** Aggregates: the only way to read a list. */
export const listDerivations = {
  count: z.strictObject({ count: z.strictObject({ ...items, distinct: kebab.exactOptional() }) }),
  total: z.strictObject({ total: itemsField }),
  least: z.strictObject({ least: itemsField }),
  greatest: z.strictObject({
    greatest: z.strictObject({ ...items, field: kebab, rank: z.int().min(1).exactOptional() }),
  }),
  newest: z.strictObject({ newest: itemsField }),
  longestRun: z.strictObject({ longestRun: z.strictObject(items) }),
} as const;
