import { type Case, compile, evaluate, type Fact, type Interval, type Release } from '@dwellset/core';

/** A release that does nothing but read the given facts. */
export function readingOnly(facts: readonly Fact[]): Release {
  return {
    $schema: 'urn:dwellset:release:1',
    id: 'published',
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: 'Facts under test',
    intendedUse: 'tests',
    users: 'tests',
    exclusions: [],
    limits: [],
    shape: 'advice',
    conditions: {},
    facts,
    codes: {},
    parameters: [],
    tables: [],
    stock: {},
    rules: [],
    evidence: [],
    sources: [],
    hazards: [],
  };
}

/** The ends of one derived fact for a case, as the evaluator reads them. */
export function endsOf(facts: readonly Fact[], id: string, patient: Case): Interval {
  const plan = compile([readingOnly(facts)], { allow: ['draft'] });
  const bounds = evaluate(plan, patient).readings.get(id)?.bounds;
  if (bounds?.kind !== 'interval') throw new Error(`${id} has no ends`);
  return bounds;
}

export const base = { title: 'under test', question: 'Under test?' } as const;
