import { daysIn, doc, type Json, rule, set } from './documents.ts';

export const reason = (): Record<string, Json> => ({
  'reason/ruleset.json': set('reason', {
    shape: 'decision',
    conclusions: [
      { id: 'stop', title: 'Stop' },
      { id: 'take-out', title: 'Take it out' },
      { id: 'keep', title: 'Keep it' },
    ],
    defaultConclusion: { id: 'none', title: 'No reason' },
    rules: ['blocked', 'must-go', 'may-stay'],
  }),
  'reason/blocked.rule.json': doc(
    'rule',
    rule('blocked', {
      when: { fact: 'catheter.bypassing', operator: 'equal', value: true },
      concludes: 'stop',
    }),
  ),
  'reason/must-go.rule.json': doc(
    'rule',
    rule('must-go', { when: daysIn('greaterThan', 'dwell.longest'), concludes: 'take-out', locked: true }),
  ),
  'reason/may-stay.rule.json': doc(
    'rule',
    rule('may-stay', { when: daysIn('lessThan', 'dwell.review'), concludes: 'keep' }),
  ),
});
