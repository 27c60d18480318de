import type { CaseValue, ExactValue, Fact } from '@dwellset/core';

const MS_PER_DAY = 86_400_000;

/** An exact value as a case states it: with its unit, confirmed where it is unusual, every code answered. */
export function caseValueOf(fact: Fact, value: ExactValue | null, codes: readonly string[]): CaseValue {
  if (value === null || typeof value === 'boolean') return value;
  if (typeof value === 'number') {
    if (fact.type === 'date') return new Date(value * MS_PER_DAY).toISOString().slice(0, 10);
    if (fact.type === 'date-time') return new Date(value).toISOString().replace('.000Z', 'Z');
    const [low, high] = fact.usual ?? [-Infinity, Infinity];
    const unit = fact.unit === undefined ? {} : { unit: fact.unit };
    return { value, ...unit, ...(value < low || value > high ? { confirmed: true } : {}) };
  }
  if (typeof value === 'string') return value;
  if (fact.unlisted === 'no') return value;
  return { yes: value, no: codes.filter((code) => !value.includes(code)) };
}
