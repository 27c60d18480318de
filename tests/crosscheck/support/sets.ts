import type { Condition, Release, Rule } from '@dwellset/core';
import { FACTS, fact, leaf, parameter, release, rule } from './releases.ts';

/** Four invented rule sets, one of each shape, over the same facts; they share a gate and a population. */
const scanned = fact('urine.excess', 'number', {
  unit: 'mL',
  from: { difference: ['urine.scan', { parameter: 'scan.limit' }] },
});
const days = fact('catheter.days', 'number', {
  unit: 'd',
  step: 0.1,
  limits: [0, 4000],
  staleAfter: 'P1D',
  from: { elapsed: { from: 'catheter.inserted-at', to: 'asOf' } },
});
const optionFacts = [
  fact('option.material', 'code', { codes: 'materials' }),
  fact('option.size', 'number', { unit: '[Ch]', limits: [5, 30] }),
];
const limit = parameter('scan.limit', 'number', 400);
const conditions: Readonly<Record<string, Condition>> = {
  full: leaf('urine.excess', 'greaterThan', 0),
  signs: {
    any: [
      leaf('infection.signs', 'contains', 'rigors'),
      { all: [leaf('infection.signs', 'containsAny', ['dysuria', 'flank-pain']), { condition: 'full' }] },
    ],
  },
};
const shared = {
  facts: [...FACTS, scanned, days],
  parameters: [{ ...limit, unit: 'mL' }],
  conditions,
  scope: leaf('catheter.in-use', 'equal', true),
  population: { when: leaf('patient.adult', 'equal', true), otherwise: 'for adults only' },
} satisfies Partial<Release>;

const whens: readonly Partial<Rule>[] = [
  { when: { condition: 'full' } },
  { when: { condition: 'signs' }, locked: true },
  { when: { not: { condition: 'signs' } }, scope: leaf('catheter.days', 'greaterThanInclusive', 7) },
  {
    when: {
      all: [{ not: leaf('allergy.latex', 'equal', true) }, leaf('catheter.material', 'in', ['latex'])],
    },
    anyPopulation: true,
  },
  {
    when: {
      not: { any: [leaf('catheter.material', 'notEqual', 'pvc'), leaf('record.inserter', 'recorded')] },
    },
  },
  { when: leaf('pack.use-by', 'before', '2026-11-25'), locked: true, anyPopulation: true },
  { when: leaf('catheter.inserted-at', 'after', '2026-11-20T12:00:00Z') },
];
const each = (more: (at: number) => Partial<Rule>) =>
  whens.map((when, at) => rule(`rule-${at}`, { ...when, ...more(at) }));

const advice = release({ ...shared, id: 'advice', rules: each(() => ({})) });
const decision = release({
  ...shared,
  id: 'decision',
  shape: 'decision',
  conclusions: ['first', 'second', 'third'].map((id) => ({ id, title: id })),
  defaultConclusion: { id: 'fallback', title: 'fallback' },
  rules: each((at) => ({ concludes: ['third', 'first', 'second'][at % 3]! })),
});
const checklist = release({
  ...shared,
  id: 'checklist',
  shape: 'checklist',
  rules: whens.map(({ when, ...more }, at) => rule(`rule-${at}`, { ...more, expect: when! })),
});
const choice = release({
  ...shared,
  id: 'choice',
  shape: 'choice',
  facts: [...shared.facts, ...optionFacts],
  stock: {
    catheter: [
      {
        id: 'silicone-12',
        title: 'silicone 12',
        facts: { 'option.material': 'silicone', 'option.size': { value: 12, unit: '[Ch]' } },
      },
      {
        id: 'latex-12',
        title: 'latex 12',
        facts: { 'option.material': 'latex', 'option.size': { value: 12, unit: '[Ch]' } },
      },
      {
        id: 'pvc-16',
        title: 'PVC 16',
        facts: { 'option.material': 'pvc', 'option.size': { value: 16, unit: '[Ch]' } },
      },
      { id: 'unlabelled', title: 'unlabelled', facts: { 'option.material': 'pvc' } },
    ],
  },
  rules: each((at) => ({
    of: 'catheter',
    ...[
      { excludes: leaf('option.size', 'greaterThan', 12) },
      { excludes: leaf('option.material', 'equal', 'latex') },
      { prefers: { options: leaf('option.material', 'equal', 'silicone') } },
      { prefers: { lowest: 'option.size' } },
      { remarks: { not: leaf('option.size', 'lessThan', 16) } },
      {
        excludes: {
          all: [leaf('option.material', 'notEqual', 'pvc'), leaf('infection.signs', 'contains', 'rigors')],
        },
      },
      { excludes: leaf('option.size', 'lessThanInclusive', 12) },
    ][at],
  })),
});

export const SETS = [advice, decision, checklist, choice] as const;
