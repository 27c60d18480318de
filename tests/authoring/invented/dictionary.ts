import { doc, type Json } from './documents.ts';

export const dictionary = (): Record<string, Json> => ({
  'facts/codes.json': doc('codes', {
    lists: {
      stages: { considered: 'Considered', 'in-place': 'In place', removed: 'Removed' },
      materials: { latex: 'Latex', silicone: 'Silicone', pvc: 'PVC' },
      signs: { fever: 'Fever', pain: 'Pain', 'new-confusion': 'New confusion' },
    },
    extensible: ['materials'],
  }),
  'facts/allergy.json': doc('facts', {
    group: 'allergy',
    order: 2,
    title: 'Allergies',
    facts: [
      {
        id: 'allergy.latex',
        type: 'boolean',
        title: 'Latex allergy',
        question: 'Is there a latex allergy?',
      },
    ],
  }),
  'facts/catheter.json': doc('facts', {
    group: 'catheter',
    order: 1,
    title: 'Catheter',
    facts: [
      {
        id: 'catheter.stage',
        type: 'code',
        codes: 'stages',
        title: 'Stage',
        question: 'What stage is it at?',
      },
      {
        id: 'catheter.removed-at',
        type: 'date-time',
        notBefore: 'catheter.inserted-at',
        title: 'Removed',
        question: 'When was it removed?',
      },
      {
        id: 'catheter.inserted-at',
        type: 'date-time',
        title: 'Inserted',
        question: 'When was it inserted?',
      },
      {
        id: 'catheter.days-in',
        type: 'number',
        unit: 'd',
        step: 0.1,
        limits: [0, 400],
        title: 'Days in place',
        question: 'How many days has it been in?',
        from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
      },
      {
        id: 'catheter.signs',
        type: 'codes',
        codes: 'signs',
        unlisted: 'no',
        title: 'Signs',
        question: 'Which signs?',
      },
      { id: 'catheter.bypassing', type: 'boolean', title: 'Bypassing', question: 'Is urine bypassing?' },
      { id: 'catheter.unused', type: 'text', title: 'Nobody reads this', question: 'Anything else?' },
    ],
  }),
  'facts/option.json': doc('facts', {
    group: 'option',
    order: 9,
    title: 'Options',
    facts: [
      {
        id: 'option.material',
        type: 'code',
        codes: 'materials',
        title: 'Material',
        question: 'Which material?',
      },
      {
        id: 'option.size',
        type: 'number',
        unit: '[Ch]',
        limits: [4, 30],
        title: 'Size',
        question: 'Which size?',
      },
    ],
  }),
});
