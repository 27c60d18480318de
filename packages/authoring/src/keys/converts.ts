import { convert } from '@dwellset/core';
import type { KeyCase } from '../documents/key.ts';
import type { Judged } from './shape.ts';

/** Quotients such as 5.4/0.1 are not whole in binary; this much above a step is still that step. */
const SLACK = 1e-6;

/** A value in another unit, rounded as it is printed. */
export function judgeConversion(asked: NonNullable<KeyCase['answer']['converts']>): Judged {
  const { value, unit, to, gives, rounding, step } = asked;
  const exact = convert(value, unit, to);
  const steps = (exact ?? Number.NaN) / step;
  const rounded = (rounding === 'up' ? Math.ceil(steps - SLACK) : Math.round(steps)) * step;
  const received = exact === undefined ? null : Number(rounded.toPrecision(6));
  return {
    part: 'converts',
    verdict: received === gives ? 'agreed' : 'disagreed',
    expected: gives,
    received,
    by: [],
    asks: [],
  };
}
