import { assess, type Case, type CaseValue, forecast } from '@dwellset/core';
import { describe, expect, it } from 'vitest';
import { caseAt, planOf } from './shipped.ts';

const plan = planOf(['catheter-choice']);
const woman = caseAt('harrowmere', 'being-catheterised');
const dose = (at: string, lidocaine: number, way = 'gel'): Readonly<Record<string, CaseValue>> => ({
  at,
  way,
  lidocaine: { value: lidocaine, unit: 'mg' },
});
const given = (doses: readonly Readonly<Record<string, CaseValue>>[], facts: Case['facts'] = {}): Case => ({
  ...woman,
  facts: { ...woman.facts, 'patient.weight': { value: 70, unit: 'kg' }, 'gel.doses': doses, ...facts },
});
const gels = (patient: Case) => assess(plan, patient).ruleSets[0]?.choices?.find(({ of }) => of === 'gel');
const excludes = (patient: Case, id: string) =>
  gels(patient)?.options.find((option) => option.id === id)?.excludedBy;

describe('doses of gel that add up', () => {
  const four = [
    '2026-11-24T16:20:00Z',
    '2026-11-24T22:00:00Z',
    '2026-11-25T04:00:00Z',
    '2026-11-25T09:00:00Z',
  ];

  it('rule lidocaine out until the first of four is a day old, as time alone passes', () => {
    const patient = given(four.map((at) => dose(at, 125.4)));
    expect(excludes(patient, 'lidocaine-11')).toContain('gel-doses-spent');
    const moments = forecast(plan, patient, { hours: 6 }).changes.flatMap(({ at, rules }) =>
      rules.flatMap(({ rule, to }) => (rule === 'gel-doses-spent' ? [`${at.slice(0, 16)} ${to}`] : [])),
    );
    expect(moments).toEqual(['2026-11-25T16:20 does-not-apply']);
  });

  it('count lidocaine of every kind, and say how much it would be', () => {
    const patient = {
      ...given([dose('2026-11-25T08:00:00Z', 230), dose('2026-11-25T12:00:00Z', 200, 'other')]),
      chosen: { gel: 'lidocaine-chlorhexidine-11' },
    };
    const said = assess(plan, patient).advice.find(({ rule }) => rule === 'gel-lidocaine-limit');
    expect(said?.summary).toContain('660.0 mg');
    expect(excludes(patient, 'lidocaine-chlorhexidine-6')).toEqual([]);
  });

  it('are asked for, and taken for neither none nor many, where nobody gave them', () => {
    const { 'gel.doses': _, ...facts } = given([]).facts;
    const { options = [], provisional } = gels({ ...woman, facts }) ?? {};
    expect(options.find(({ id }) => id === 'lidocaine-11')).toMatchObject({
      state: 'to-confirm',
      excludedBy: [],
    });
    expect(provisional).toBe(true);
    expect(assess(plan, { ...woman, facts }).ask.map(({ fact }) => fact)).toContain('gel.doses');
  });
});

describe('gel for a child (label: 6 mg/kg a dose, or 3 mL for 10 kg; 6 mL hold 125.4 mg)', () => {
  const child = (millilitres: number): Case => ({
    ...given([], {
      'patient.age-years': { value: 3, unit: 'a' },
      'patient.weight': { value: 10, unit: 'kg' },
    }),
    chosen: {
      gel: {
        'option.product': 'lidocaine-chlorhexidine-6',
        'option.volume': { value: millilitres, unit: 'mL' },
        // The strength follows from the syringe: 20.9 mg in each millilitre.
        'option.label-lidocaine': { value: Number(((125.4 / 6) * millilitres).toFixed(1)), unit: 'mg' },
      },
    },
  });
  const excludedBy = (millilitres: number) => gels(child(millilitres))?.chosen?.excludedBy ?? [];

  it('holds to the lower of the two limits', () => {
    expect(excludedBy(2.8)).toEqual([]);
    expect(excludedBy(3)).toEqual(['child-gel-mass']);
    expect(excludedBy(3.1)).toEqual(['child-gel-mass', 'child-gel-volume']);
  });
});
