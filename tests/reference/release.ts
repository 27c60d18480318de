import type { Case, Condition, Fact, Release, Rule } from '@dwellset/core';

/** A release with everything that its test does not care about filled in. */
export function makeRelease(parts: Partial<Release> & { readonly rules: readonly Rule[] }): Release {
  return {
    $schema: 'urn:dwellset:release:1',
    id: 'invented',
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: 'Invented rules',
    intendedUse: 'Tests only',
    users: 'Nobody',
    exclusions: [],
    limits: [],
    shape: 'advice',
    conditions: {},
    facts: [],
    codes: {},
    parameters: [],
    tables: [],
    stock: {},
    evidence: [EVIDENCE],
    sources: [SOURCE],
    hazards: [],
    ...parts,
  };
}

const SOURCE = { id: 'invented', kind: 'practice', body: 'Nobody', title: 'Invented for a test' } as const;
const EVIDENCE = {
  id: 'invented',
  statement: 'Invented for a test',
  from: [{ source: 'invented', locator: 'nowhere', grade: 'ungraded', status: 'practice' }],
} as const;

export function makeFact(id: string, parts: Omit<Fact, 'id' | 'title' | 'question'>): Fact {
  return { id, title: id, question: `${id}?`, ...parts };
}

export function makeRule(id: string, parts: Partial<Rule>): Rule {
  return {
    id,
    title: id,
    because: 'Invented for a test.',
    evidence: ['invented'],
    advice: { summary: `${id} applies`, indicator: 'info' },
    ...parts,
  };
}

export const leaf = (fact: string, operator: string, value?: unknown): Condition =>
  ({ fact, operator, ...(value === undefined ? {} : { value }) }) as Condition;

export function makeCase(facts: Case['facts'], parts: Partial<Case> = {}): Case {
  return {
    asOf: '2026-11-25T09:00:00Z',
    timeZone: 'Europe/London',
    recordedAt: '2026-11-25T09:00:00Z',
    facts,
    ...parts,
  };
}
