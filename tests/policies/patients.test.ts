import { assess, type Case } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { caseAt, planOf } from './shipped.ts';

const without = (patient: Case, ...facts: string[]): Case => ({
  ...patient,
  facts: Object.fromEntries(Object.entries(patient.facts).filter(([id]) => !facts.includes(id))),
});
const having = (patient: Case, facts: Case['facts']): Case => ({
  ...patient,
  facts: { ...patient.facts, ...facts },
});

describe('two hospitals that chose differently', () => {
  const patient = caseAt('harrowmere', 'after-operation');
  const [short, long] = ['harrowmere', 'saltby-cross'].map((hospital) =>
    assess(planOf(['removal'], hospital), patient),
  );

  it('calls the review due at one and not yet at the other', () => {
    const due = (assessment = short) => assessment?.advice.some(({ rule }) => rule === 'review-due');
    expect(due(short)).toBe(true);
    expect(due(long)).toBe(false);
  });

  it('words the interval as each hospital chose it', () => {
    const late = having(patient, {
      'review.last-at': '2026-11-22T07:30:00Z',
      'catheter.inserted-at': '2026-11-20T07:30:00Z',
    });
    const summaries = ['harrowmere', 'saltby-cross'].map(
      (hospital) =>
        assess(planOf(['removal'], hospital), late).advice.find(({ rule }) => rule === 'review-due')?.summary,
    );
    expect(summaries[0]).toContain('12 h');
    expect(summaries[1]).toContain('48 h');
  });

  it('shows the digest of the published rules beside the one in force, and who adopted them', () => {
    for (const assessment of [short, long]) {
      const [set] = assessment?.ruleSets ?? [];
      expect(set?.digest).toMatch(/^[0-9a-f]{64}$/);
      expect(set?.amendment?.base.digest).toMatch(/^[0-9a-f]{64}$/);
      expect(set?.amendment?.base.digest).not.toBe(set?.digest);
      expect(set?.status).toBe('active by adoption');
      expect(assessment?.adoption?.releases.map(({ digest }) => digest)).toContain(set?.digest);
    }
    expect(short?.ruleSets[0]?.amendment?.base.digest).toBe(long?.ruleSets[0]?.amendment?.base.digest);
  });
});

describe('a valve before a trial without catheter, where a hospital chose it', () => {
  const base = caseAt('harrowmere', 'after-removal');
  const noHindrance = {
    no: [
      'poor-dexterity',
      'impaired-cognition',
      'no-filling-sensation',
      'small-capacity',
      'reflux-or-renal',
      'recent-bladder-surgery',
      'dysreflexia-risk',
    ],
  };
  const patient = having(without(base, 'catheter.removed-at'), {
    'catheter.stage': 'in-place',
    'drainage.kind': 'leg-bag',
    'patient.valve-hindrances': noHindrance,
  });
  const outcome = (hospital: string, facts: Case['facts'] = {}) =>
    assess(planOf(['removal'], hospital), having(patient, facts)).ruleSets[0]?.rules.find(
      ({ id }) => id === 'valve-first',
    )?.outcome;

  it('is offered with a leg bag and nothing against it, and switched off at the other hospital', () => {
    expect(outcome('harrowmere')).toBe('applies');
    expect(outcome('saltby-cross')).toBe('switched-off');
  });

  it.each([
    ['with a valve already fitted', { 'drainage.kind': 'valve' }, 'does-not-apply'],
    ['with poor dexterity', { 'patient.valve-hindrances': ['poor-dexterity'] }, 'does-not-apply'],
    ['in high-pressure retention', { 'indication.bladder-pressure': 'high' }, 'does-not-apply'],
    ['after an operation', { 'indication.reasons': ['long-surgery'] }, 'does-not-apply'],
    ['while hindrances were not asked about', { 'patient.valve-hindrances': [] }, 'undetermined'],
    ['once the catheter is out', { 'catheter.stage': 'removed' }, 'not-in-scope'],
  ] as const)('is not offered %s', (_name, facts, expected) => {
    expect(outcome('harrowmere', facts)).toBe(expected);
  });
});

describe('an order that ends by itself', () => {
  const bedRest = caseAt('harrowmere', 'bed-rest');
  const said = (hospital: string, facts: Case['facts'] = {}) =>
    assess(planOf(['removal'], hospital), having(bedRest, facts)).advice.map(({ rule }) => rule);

  it('is spoken of where it has ended, and not at the hospital whose orders do not end', () => {
    expect(said('harrowmere')).toContain('order-expired');
    expect(said('saltby-cross')).not.toContain('order-expired');
  });

  it('runs anew from a renewal', () => {
    const renewals = [{ at: '2026-11-25T07:00:00Z', by: 'ward doctor' }];
    expect(said('harrowmere', { 'review.renewals': renewals })).not.toContain('order-expired');
  });

  it('says of bed rest alone why it does not keep the catheter, beside the advice to remove', () => {
    expect(said('harrowmere')).toEqual(expect.arrayContaining(['no-reason-left', 'bed-rest']));
  });
});

describe('a latex history that nobody asked for', () => {
  const plan = planOf(['catheter-choice']);
  const asked = having(caseAt('harrowmere', 'being-catheterised'), { 'allergy.latex': false });

  it('passes silently where the answer is no', () => {
    const assessment = assess(plan, asked);
    expect(assessment.advice.map(({ rule }) => rule)).not.toContain('latex-allergy');
    expect(assessment.ask.map(({ fact }) => fact)).not.toContain('allergy.latex');
  });

  it('is the first question where the answer is taken away', () => {
    const assessment = assess(plan, without(asked, 'allergy.latex'));
    expect(assessment.ask[0]?.fact).toBe('allergy.latex');
    const catheters = assessment.ruleSets[0]?.choices?.find(({ of }) => of === 'catheter');
    expect(catheters?.options.filter(({ state }) => state === 'held').length).toBeGreaterThan(0);
    expect(catheters?.chosen?.state).toBe('held');
  });
});

describe('an insertion recorded by date alone', () => {
  const plan = planOf(['removal']);
  const outcome = (inserted: string, rule: string, asOf = '2026-11-25T09:00:00Z') => {
    const patient = having(caseAt('harrowmere', 'after-operation'), {
      'catheter.inserted-at': inserted,
      'review.last-at': null,
      'catheter.label-dwell': null,
      'catheter.material': 'pvc',
    });
    const rules = assess(plan, { ...patient, asOf }).ruleSets[0]?.rules;
    return rules?.find(({ id }) => id === rule)?.outcome;
  };

  it('settles what it can: yesterday is too short for a change', () => {
    expect(outcome('2026-11-24', 'change-overdue')).toBe('does-not-apply');
  });

  it('leaves a 24 h review open in the hours that depend on the time, and settles it after', () => {
    expect(outcome('2026-11-24', 'review-due')).toBe('undetermined');
    expect(outcome('2026-11-23', 'review-due')).toBe('applies');
  });
});

describe('use-by date (ISO 15223-1:2021, 5.1.4, known as reported: the date after which an item is not used)', () => {
  const plan = planOf(['insertion-bundle']);
  const check = (useBy: string | null, asOf: string) => {
    const item = { item: 'catheter', 'use-by': useBy, intact: true, unused: true };
    const patient = having(caseAt('harrowmere', 'being-catheterised'), { 'pack.items': [item] });
    const stamped: Case = { ...patient, asOf, recordedAt: asOf };
    return assess(plan, stamped).ruleSets[0]?.rules.find(({ id }) => id === 'item-in-date')?.check;
  };

  it.each([
    ['late on the printed day', '2026-11-25', '2026-11-25T23:30:00Z', 'met'],
    ['a second past midnight', '2026-11-25', '2026-11-26T00:00:01Z', 'not-met'],
    ['a month without a day, on its last day', '2026-11', '2026-11-30T12:00:00Z', 'met'],
    ['a month without a day, on the first of the next', '2026-11', '2026-12-01T00:10:00Z', 'not-met'],
    ['an unreadable date', null, '2026-11-25T12:00:00Z', 'undetermined'],
  ])('%s', (_name, useBy, asOf, expected) => {
    expect(check(useBy, asOf)).toBe(expected);
  });
});
