import { daysIn, doc, type Json, rule, set } from './documents.ts';

export const removal = (): Record<string, Json> => ({
  'removal/ruleset.json': set('removal', {
    shape: 'advice',
    scope: { fact: 'catheter.stage', operator: 'equal', value: 'in-place' },
    conditions: {
      overdue: daysIn('greaterThan', 'dwell.longest'),
      spare: { fact: 'catheter.bypassing', operator: 'recorded' },
    },
    derived: [
      {
        id: 'removal.signs-counted',
        type: 'number',
        unit: '1',
        limits: [0, 3],
        title: 'Signs that count',
        question: 'How many signs?',
        from: { countCodes: { of: 'catheter.signs', in: { parameter: 'dwell.signs' } } },
      },
    ],
    rules: ['overdue', 'infected', 'review', 'bypassing'],
  }),
  'removal/overdue.rule.json': doc('rule', {
    ...rule('overdue', {
      when: { condition: 'overdue' },
      locked: true,
      hazards: ['left-too-long'],
      advice: {
        summary: 'In place longer than {{dwell.longest}} d: take it out.',
        detail: ['Step one.'],
        indicator: 'critical',
      },
    }),
  }),
  'removal/infected.rule.json': doc(
    'rule',
    rule('infected', {
      when: { fact: 'removal.signs-counted', operator: 'greaterThan', value: 0 },
      locked: true,
    }),
  ),
  'removal/review.rule.json': doc(
    'rule',
    rule('review', { when: daysIn('greaterThanInclusive', 'dwell.review'), supersedes: ['bypassing'] }),
  ),
  'removal/bypassing.rule.json': doc(
    'rule',
    rule('bypassing', {
      when: { fact: 'catheter.bypassing', operator: 'equal', value: true },
      advice: { summary: 'Bypassing: look for the cause.', indicator: 'info' },
    }),
  ),
  'removal/overdue.vignettes.json': doc('vignettes', {
    base: {
      asOf: '2030-03-01T12:00:00Z',
      timeZone: 'Europe/London',
      recordedAt: '2030-03-01T11:00:00Z',
      facts: {
        'catheter.stage': 'in-place',
        'catheter.inserted-at': '2030-02-09T12:00:00Z',
        'catheter.signs': [],
      },
    },
    vignettes: [
      {
        id: 'day-20',
        title: 'Day 20',
        expect: {
          rules: { overdue: 'applies', infected: 'does-not-apply' },
          speaks: ['overdue', 'review'],
          summary: { overdue: 'In place longer than 14 d: take it out.' },
          deciding: { overdue: ['catheter.days-in', 'catheter.stage'] },
        },
      },
      {
        id: 'day-unknown',
        title: 'Nobody wrote down when it went in',
        without: ['catheter.inserted-at'],
        expect: { rules: { overdue: 'undetermined' }, ask: ['catheter.inserted-at'] },
      },
      {
        id: 'day-10',
        title: 'Day 10',
        facts: { 'catheter.inserted-at': '2030-02-19T12:00:00Z' },
        expect: { rules: { overdue: 'does-not-apply' }, speaks: ['review'] },
      },
    ],
  }),
});
