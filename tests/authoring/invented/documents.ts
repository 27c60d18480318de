export type Json = Record<string, unknown>;
export const doc = (kind: string, rest: Json): Json => ({ $schema: `urn:dwellset:${kind}:1`, ...rest });

/** One source and one piece of evidence, for rules that rest on something. */
export const grounds: Readonly<Record<string, Json>> = {
  'sources.json': doc('sources', {
    sources: [{ id: 'guide', kind: 'teaching', body: 'Invented', title: 'Guide', year: 2029 }],
  }),
  'evidence/care.json': doc('evidence', {
    topic: 'care',
    evidence: [
      {
        id: 'ev-review',
        statement: 'Invented.',
        from: [{ source: 'guide', locator: 'p. 1', grade: 'ungraded', status: 'read' }],
      },
    ],
  }),
};

export const rule = (id: string, rest: Json): Json => ({
  id,
  title: `Title of ${id}`,
  advice: { summary: `Summary of ${id}.`, detail: ['Step one.'], indicator: 'warning' },
  because: `Reason of ${id}.`,
  evidence: ['ev-review'],
  ...rest,
});

export const daysIn = (operator: string, parameter: string): Json => ({
  fact: 'catheter.days-in',
  operator,
  value: { parameter },
});

export const set = (id: string, rest: Json): Json =>
  doc('rule-set', {
    id,
    version: '0.1.0',
    status: 'draft',
    language: 'en',
    title: `Set ${id}`,
    intendedUse: 'Support to registered practitioners',
    users: 'Ward nurses',
    exclusions: [],
    limits: [],
    uses: ['dwell'],
    conditions: {},
    derived: [],
    ...rest,
  });
