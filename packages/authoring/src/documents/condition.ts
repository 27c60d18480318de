import { type Condition, OPERATORS } from '@dwellset/core';
import { z } from 'zod';
import { factId, kebab } from './terms.ts';

export const operator = z.enum(OPERATORS).meta({ id: 'operator' });

/** A typed constant: numbers in the unit of the fact, dates as ISO 8601 text, codes by their key. */
export const constant = z
  .union([z.boolean(), z.number(), z.string(), z.array(z.string())])
  .meta({ id: 'constant' });

export const parameterReference = z.strictObject({ parameter: factId }).meta({ id: 'parameter-reference' });

export const rightSide = z.union([constant, parameterReference]).meta({ id: 'right-side' });

const factLeaf = z
  .strictObject({ fact: factId, operator, value: rightSide.exactOptional() })
  .meta({ id: 'fact-leaf' });

const parameterLeaf = z
  .strictObject({ parameter: factId, operator, value: rightSide })
  .meta({ id: 'parameter-leaf' });

const namedCondition = z.strictObject({ condition: kebab }).meta({ id: 'named-condition' });

const all = z
  .strictObject({
    get all() {
      return z.array(condition).min(1);
    },
  })
  .meta({ id: 'all' });

const any = z
  .strictObject({
    get any() {
      return z.array(condition).min(1);
    },
  })
  .meta({ id: 'any' });

const not = z
  .strictObject({
    get not() {
      return condition;
    },
  })
  .meta({ id: 'not' });

/** Named by the type of the core: spelt out it would fill the declarations of every document that holds one. */
export const condition: z.ZodType<Condition> = z
  .union([all, any, not, namedCondition, factLeaf, parameterLeaf])
  .meta({ id: 'condition' });
