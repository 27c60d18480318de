import { doc, type Json } from './documents.ts';

export const choices = (): Record<string, Json> => ({
  'choices/dwell.json': doc('choices', {
    id: 'dwell',
    version: '0.1.0',
    title: 'Dwell',
    parameters: [
      {
        id: 'dwell.longest',
        type: 'number',
        unit: 'd',
        step: 1,
        range: [1, 90],
        title: 'Longest dwell',
        default: 14,
        cautious: 'lower',
        positions: [
          { value: 7, evidence: ['ev-short'] },
          { value: 14, evidence: ['ev-long'] },
          { value: 28, evidence: ['ev-longer'] },
        ],
      },
      {
        id: 'dwell.review',
        type: 'number',
        unit: 'd',
        step: 1,
        range: [1, 30],
        title: 'Days until the review',
        default: 3,
        cautious: 'lower',
        positions: [{ value: 3, evidence: ['ev-review'] }],
      },
      {
        id: 'dwell.signs',
        type: 'codes',
        codes: 'signs',
        title: 'Signs that count',
        default: ['fever'],
        cautious: 'higher',
        positions: [{ value: ['fever'], evidence: ['ev-review'] }],
      },
    ],
    tables: [
      {
        id: 'dwell.by-material',
        key: 'materials',
        title: 'Dwell by material',
        columns: { days: { type: 'number', unit: 'd', cautious: 'lower' } },
        rows: {
          latex: {
            days: {
              value: 28,
              range: [7, 28],
              positions: [
                { value: 28, evidence: ['ev-long'] },
                { value: 14, evidence: ['ev-short'] },
              ],
            },
          },
          silicone: { days: { value: 84, evidence: ['ev-longer'] } },
        },
        otherwise: { days: null },
      },
    ],
  }),
  'sources.json': doc('sources', {
    sources: [
      {
        id: 'invented-guide',
        kind: 'guideline',
        body: 'Invented body',
        title: 'Invented guide',
        year: 2020,
      },
      { id: 'unused-guide', kind: 'guideline', body: 'Invented body', title: 'Nobody cites this' },
    ],
  }),
  'evidence/dwell.json': doc('evidence', {
    topic: 'dwell',
    evidence: ['ev-short', 'ev-long', 'ev-longer', 'ev-review', 'ev-unused'].map((id) => ({
      id,
      statement: `Statement ${id}.`,
      from: [{ source: 'invented-guide', locator: 'p. 1', grade: 'ungraded', status: 'read' }],
    })),
  }),
  'hazards.json': doc('hazards', {
    hazards: [
      {
        id: 'left-too-long',
        title: 'Left in too long',
        description: 'The catheter stays longer than it may.',
        causes: ['Nobody counts the days'],
        effect: 'Infection',
        harm: 'Sepsis',
        controls: ['removal/day-20'],
        initial: { severity: 'Major', likelihood: 'Medium', risk: 3 },
        residual: { severity: 'Major', likelihood: 'Low', risk: 2 },
        owner: 'Infection prevention',
        status: 'open',
      },
    ],
  }),
});
