import type { Bounds, Fact, Reading, Truth } from '@dwellset/core';
import { FALSE, TRUE, UNKNOWN } from '@dwellset/core';
import { CODES, FACTS } from './releases.ts';

/** Nothing supplied: everything is possible. */
function unknown(fact: Fact): Reading {
  return { fact, bounds: everything(fact), recorded: UNKNOWN, cause: 'not-supplied' };
}

/** Somebody looked and found nothing. */
function nothingRecorded(fact: Fact): Reading {
  return { ...unknown(fact), recorded: FALSE, cause: 'nothing-recorded' };
}

function everything(fact: Fact): Bounds {
  switch (fact.type) {
    case 'boolean':
      return { kind: 'possible', possible: ['true', 'false'] };
    case 'code':
      return { kind: 'possible', possible: Object.keys(CODES.materials) };
    case 'codes':
      return { kind: 'answers', answers: new Map(Object.keys(CODES.signs).map((code) => [code, UNKNOWN])) };
    case 'text':
      return { kind: 'text', text: undefined };
    default:
      return { kind: 'interval', low: fact.limits?.[0] ?? -Infinity, high: fact.limits?.[1] ?? Infinity };
  }
}

export const yesNo = (value: boolean): Bounds => ({ kind: 'possible', possible: [String(value)] });
export const between = (low: number, high: number): Bounds => ({ kind: 'interval', low, high });
export const exactly = (value: number): Bounds => between(value, value);
export const oneOf = (...possible: readonly string[]): Bounds => ({ kind: 'possible', possible });
export const answers = (of: Readonly<Record<string, Truth>>): Bounds => ({
  kind: 'answers',
  answers: new Map(Object.entries(of)),
});

/** The readings of one patient: what is named is recorded, `null` was looked for, the rest nobody supplied. */
export function readings(
  known: Readonly<Record<string, Bounds | null>>,
  facts: readonly Fact[] = FACTS,
): ReadonlyMap<string, Reading> {
  return new Map(
    facts.map((fact) => {
      const bounds = known[fact.id];
      if (bounds === undefined) return [fact.id, unknown(fact)];
      return [fact.id, bounds === null ? nothingRecorded(fact) : { fact, bounds, recorded: TRUE }];
    }),
  );
}
