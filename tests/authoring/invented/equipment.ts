import { doc, type Json, rule, set } from './documents.ts';

export const equipment = (): Record<string, Json> => ({
  'equipment/ruleset.json': set('equipment', {
    shape: 'choice',
    stock: ['catheter'],
    derived: [
      {
        id: 'option.table-dwell',
        type: 'number',
        unit: 'd',
        limits: [0, 100],
        title: 'Dwell by the table',
        question: 'How long may it stay?',
        from: { lookup: { table: 'dwell.by-material', key: 'option.material', column: 'days' } },
      },
    ],
    rules: ['latex-allergy', 'smallest', 'long-stay'],
  }),
  'equipment/latex-allergy.rule.json': doc(
    'rule',
    rule('latex-allergy', {
      of: 'catheter',
      when: { fact: 'allergy.latex', operator: 'equal', value: true },
      excludes: { fact: 'option.material', operator: 'equal', value: 'latex' },
      locked: true,
    }),
  ),
  'equipment/smallest.rule.json': doc(
    'rule',
    rule('smallest', {
      of: 'catheter',
      prefers: { lowest: 'option.size' },
      locked: true,
      advice: undefined,
    }),
  ),
  'equipment/long-stay.rule.json': doc(
    'rule',
    rule('long-stay', {
      of: 'catheter',
      prefers: { options: { fact: 'option.table-dwell', operator: 'greaterThan', value: 30 } },
      advice: undefined,
    }),
  ),
  'equipment/stock/catheter.json': doc('stock', {
    of: 'catheter',
    title: 'Catheters in stock',
    options: [
      {
        id: 'latex-14',
        title: 'Latex 14 Ch',
        facts: { 'option.material': 'latex', 'option.size': { value: 14, unit: '[Ch]' } },
      },
      {
        id: 'silicone-12',
        title: 'Silicone 12 Ch',
        facts: { 'option.material': 'silicone', 'option.size': { value: 12, unit: '[Ch]' } },
      },
    ],
  }),
  'equipment/latex-allergy.vignettes.json': doc('vignettes', {
    base: { asOf: '2030-03-01T12:00:00Z', timeZone: 'Europe/London', facts: { 'allergy.latex': true } },
    vignettes: [
      {
        id: 'allergic',
        title: 'Latex allergy',
        expect: {
          rules: { 'latex-allergy': 'applies' },
          options: { catheter: { 'latex-14': 'ruled-out', 'silicone-12': 'open' } },
          first: { catheter: 'silicone-12' },
          provisional: { catheter: false },
        },
      },
    ],
  }),
});
