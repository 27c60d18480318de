import type {
  Advice,
  Assessment,
  FactReading,
  Reason,
  Release,
  RuleResult,
  RuleSetResult,
} from '@dwellset/core';

/** Invented rules, invented sources, an invented patient: they show layout and words, not care. */
export const release: Release = {
  $schema: 'urn:dwellset:release:1',
  id: 'removal',
  version: '0.1.0',
  status: 'draft',
  language: 'en',
  title: 'Removal',
  intendedUse: 'support the daily review of a urethral catheter',
  users: 'registered nurses',
  exclusions: ['suprapubic catheters'],
  limits: ['adults only'],
  shape: 'decision',
  conclusions: [
    { id: 'keep', title: 'Keep the catheter' },
    { id: 'remove', title: 'Remove the catheter' },
  ],
  defaultConclusion: { id: 'review', title: 'Review the need' },
  conditions: { 'long-in-place': { fact: 'catheter.days-in', operator: 'greaterThan', value: 7 } },
  facts: [
    {
      id: 'allergy.latex',
      type: 'boolean',
      title: 'latex allergy',
      question: 'Is there a latex allergy?',
      phrases: { true: 'there is a latex allergy', false: 'there is no latex allergy' },
    },
    {
      id: 'catheter.days-in',
      type: 'number',
      unit: 'd',
      decimals: 0,
      limits: [0, 4000],
      title: 'calendar days in place',
      question: 'For how many days has it been in place?',
    },
    {
      id: 'catheter.inserted-at',
      type: 'date-time',
      title: 'insertion',
      question: 'When was it inserted?',
    },
    {
      id: 'catheter.material',
      type: 'code',
      codes: 'materials',
      title: 'material of the catheter',
      question: 'Which material is it?',
    },
    {
      id: 'indication.reasons',
      type: 'codes',
      codes: 'reasons',
      title: 'reasons for the catheter',
      question: 'Why is it in?',
    },
    {
      id: 'patient.urology-history',
      type: 'codes',
      codes: 'reasons',
      title: 'urological history',
      question: 'Which urological conditions are known?',
    },
    {
      id: 'urine.scan',
      type: 'number',
      unit: 'mL',
      step: 1,
      limits: [0, 5000],
      usual: [0, 1500],
      staleAfter: 'PT2H',
      title: 'bladder scan',
      question: 'What does the bladder scan show?',
    },
    { id: 'pack.use-by', type: 'date', title: 'use-by date', question: 'What is the use-by date?' },
  ],
  codes: {
    materials: { pvc: 'PVC (plastic)', latex: 'latex', silicone: 'all-silicone' },
    reasons: { retention: 'acute retention', clots: 'blood clots', wound: 'an open wound' },
  },
  parameters: [
    {
      id: 'review.interval',
      type: 'number',
      unit: 'd',
      title: 'longest time without a review',
      default: 1,
      value: 2,
      cautious: 'lower',
      positions: [],
    },
    {
      id: 'review.by-nurse',
      type: 'boolean',
      title: 'review by a nurse',
      default: true,
      value: false,
      cautious: 'neither',
      positions: [],
    },
  ],
  tables: [],
  stock: {},
  rules: [
    { id: 'overdue', title: 'Review overdue', because: 'x', evidence: [] },
    { id: 'latex', title: 'Latex in a patient with latex allergy', because: 'x', evidence: [] },
  ],
  evidence: [],
  sources: [],
  hazards: [],
};

export const fact = (
  read: FactReading,
  parts: Partial<Extract<Reason, { kind: 'fact' }>> = {},
): Extract<Reason, { kind: 'fact' }> => ({
  kind: 'fact',
  truth: 'true',
  deciding: true,
  operator: 'equal',
  read,
  ...parts,
});

export const rule = (id: string, parts: Partial<RuleResult> = {}): RuleResult => ({
  id,
  title: id,
  outcome: 'does-not-apply',
  locked: false,
  ...parts,
});

export const ruleSet = (parts: Partial<RuleSetResult> = {}): RuleSetResult => ({
  id: 'removal',
  version: '0.1.0',
  digest: 'ab12cd34ef56ab12cd34ef56ab12cd34ef56ab12cd34ef56ab12cd34ef56ab12',
  title: 'Removal',
  shape: 'decision',
  status: 'draft, run on request',
  intendedUse: 'support the daily review of a urethral catheter',
  users: 'registered nurses',
  exclusions: [],
  limits: [],
  population: 'in',
  rules: [],
  ...parts,
});

export const advice = (rule: string, parts: Partial<Advice> = {}): Advice => ({
  id: `removal@0.1.0/${rule}`,
  set: 'removal',
  rule,
  summary: 'Consider taking the catheter out today',
  detail: [],
  indicator: 'warning',
  locked: false,
  because: 'Every further day adds to the risk of infection.',
  suggestions: [],
  overrideReasons: [],
  evidence: [
    {
      id: 'INV-01',
      statement: 'Review the need every day.',
      status: 'read',
      from: [
        {
          source: 'inv',
          body: 'Society of Invented Care',
          title: 'Catheters on the ward',
          year: 2024,
          locator: 'section 4.2',
          grade: 'B',
          status: 'read',
        },
      ],
    },
  ],
  memoryOnly: false,
  folded: [],
  ...parts,
});

const CAUTION = ['Supports judgement, replaces none.', 'Not for emergencies.'] as const;

export const assessment = (parts: Partial<Assessment> = {}): Assessment => ({
  case: { id: 'secret-case-id', timeZone: 'Europe/London' },
  asOf: '2026-06-01T08:30:00Z',
  engine: { name: '@dwellset/core', version: '0.1.0' },
  caution: CAUTION,
  adoption: null,
  ruleSets: [ruleSet()],
  advice: [],
  ask: [],
  problems: [],
  counts: { applies: 0, undetermined: 0, notInScope: 0 },
  ...parts,
});
