import type { ExactValue, Fact, WitnessInputs, WitnessValue } from '@dwellset/core';
import { codesIn } from './columns.ts';
import type { Parts } from './read.ts';

const found = <T>(value: T | undefined, id: string): T => {
  if (value === undefined) throw new Error(`no ${id}`);
  return value;
};

/** What a witness is looked for with, from the same parts that a release is made of. */
export function inputsOf(facts: readonly Fact[], parts: Parts, asOf: number, zone: string): WitnessInputs {
  return {
    fact: (id) =>
      found(
        facts.find((fact) => fact.id === id),
        id,
      ),
    parameter: (id) =>
      found(
        parts.parameters?.find((one) => one.id === id),
        id,
      ).value,
    table: (id) =>
      found(
        parts.tables?.find((one) => one.id === id),
        id,
      ),
    codes: (list) => codesIn(parts.codes ?? {}, list),
    conclusion: () => ({ possible: [], settled: true, stands: false, waitsFor: [] }),
    asOf,
    zone,
  };
}

/** A witness's value as a case states it. */
export function stated(fact: Fact, value: WitnessValue, codes: readonly string[]): unknown {
  if (value === null) return null;
  switch (fact.type) {
    case 'number':
      return { value, ...(fact.unit ? { unit: fact.unit } : {}), confirmed: true };
    case 'date-time':
      return new Date(Number(value)).toISOString();
    case 'date':
      return new Date(Number(value) * 86_400_000).toISOString().slice(0, 10);
    case 'codes': {
      const yes = value as readonly string[];
      return { yes, no: codes.filter((code) => !yes.includes(code)) };
    }
    default:
      return value;
  }
}

/** The exact value of a fact in the terms that a witness is looked for in. */
export const inTermsOf = (fact: Fact, value: number | string | readonly string[]): ExactValue =>
  fact.type === 'boolean' ? value === 'true' : value;
