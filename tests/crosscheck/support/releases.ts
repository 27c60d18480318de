import type { Condition, Fact, Parameter, Release, Rule } from '@dwellset/core';

/** An invented rule: only what the second engine reads differs from test to test. */
export function rule(id: string, parts: Partial<Rule>): Rule {
  return { id, title: id, because: 'invented for a test', evidence: [], ...parts };
}

export function fact(id: string, type: Fact['type'], more: Partial<Fact> = {}): Fact {
  return { id, type, title: id, question: `${id}?`, ...more };
}

export function parameter(id: string, type: Parameter['type'], value: Parameter['value']): Parameter {
  return { id, type, title: id, default: value, value, cautious: 'neither', positions: [], local: true };
}

export function release(parts: Partial<Release>): Release {
  return {
    $schema: 'urn:dwellset:release:1',
    id: 'invented',
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: 'Invented rules',
    intendedUse: 'tests',
    users: 'tests',
    exclusions: [],
    limits: [],
    shape: 'advice',
    conditions: {},
    facts: FACTS,
    codes: CODES,
    parameters: [],
    tables: [],
    stock: {},
    rules: [],
    evidence: [],
    sources: [],
    hazards: [],
    ...parts,
  };
}

export const CODES = {
  materials: { pvc: 'PVC', latex: 'latex', silicone: 'silicone' },
  signs: { rigors: 'rigors', dysuria: 'pain on passing urine', 'flank-pain': 'flank pain' },
};

/** One fact of each type, as a ward would chart them. */
export const FACTS: readonly Fact[] = [
  fact('allergy.latex', 'boolean'),
  fact('patient.adult', 'boolean'),
  fact('catheter.in-use', 'boolean'),
  fact('urine.scan', 'number', { unit: 'mL', step: 1, limits: [0, 5000] }),
  fact('catheter.material', 'code', { codes: 'materials' }),
  fact('infection.signs', 'codes', { codes: 'signs', unlisted: 'unknown' }),
  fact('pack.use-by', 'date'),
  fact('catheter.inserted-at', 'date-time'),
  fact('record.inserter', 'text'),
];

export const leaf = (id: string, operator: string, value?: unknown): Condition =>
  ({ fact: id, operator, ...(value === undefined ? {} : { value }) }) as Condition;
