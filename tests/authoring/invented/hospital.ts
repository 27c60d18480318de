import { doc, type Json } from './documents.ts';

export const hospital = (): Record<string, Json> => ({
  'hospitals/hollow/adoption.json': doc('adoption', {
    id: 'hollow-adoption',
    organisation: 'Hollow Hill (invented)',
    approverRole: 'Lead nurse',
    date: '2030-01-01',
    reviewDue: '2031-01-01',
    releases: [{ id: 'removal', version: '0.1.0', digest: '0'.repeat(64) }],
  }),
  'hospitals/hollow/cases/bed-four.case.json': doc('case', {
    asOf: '2030-03-01T12:00:00Z',
    timeZone: 'Europe/London',
    facts: {
      'catheter.stage': 'in-place',
      'catheter.bypassing': { value: true, at: '2030-03-01T11:00:00Z' },
    },
  }),
});
