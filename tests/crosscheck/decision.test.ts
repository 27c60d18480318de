import { describe, expect, test } from 'vitest';
import { judge } from './support/judge.ts';
import { exactly, oneOf, yesNo } from './support/readings.ts';
import { leaf, release, rule } from './support/releases.ts';

const need = release({
  shape: 'decision',
  conclusions: [
    { id: 'supported', title: 'a reason stands' },
    { id: 'uncertain', title: 'ask urology' },
    { id: 'not-supported', title: 'no reason stands' },
  ],
  defaultConclusion: { id: 'none-recorded', title: 'no reason recorded' },
  population: { when: leaf('patient.adult', 'equal', true), otherwise: 'for adults only' },
  rules: [
    rule('dry', { when: leaf('urine.scan', 'lessThan', 100), concludes: 'not-supported' }),
    rule('full', { when: leaf('urine.scan', 'greaterThan', 400), concludes: 'supported' }),
    rule('odd', { when: leaf('catheter.material', 'equal', 'latex'), concludes: 'uncertain' }),
  ],
});
const adult = { 'patient.adult': yesNo(true) };

describe('a decision on the second engine', () => {
  test('takes the strongest conclusion that a rule draws, and it is settled', async () => {
    const { conclusion } = await judge(need, {
      ...adult,
      'urine.scan': exactly(500),
      'catheter.material': oneOf('latex'),
    });
    expect(conclusion).toEqual({ id: 'supported', settled: true, possible: ['supported'] });
  });

  test('a weaker undecided rule does not unsettle a stronger conclusion', async () => {
    const { conclusion } = await judge(need, { ...adult, 'urine.scan': exactly(500) });
    expect(conclusion).toEqual({ id: 'supported', settled: true, possible: ['supported'] });
  });

  test('a stronger undecided rule makes the conclusion provisional', async () => {
    const { conclusion } = await judge(need, { ...adult, 'urine.scan': exactly(50) });
    expect(conclusion).toEqual({
      id: 'not-supported',
      settled: false,
      possible: ['uncertain', 'not-supported'],
    });
  });

  test('falls back on the default, provisional while anything could still be drawn', async () => {
    const nothing = await judge(need, adult);
    expect(nothing.conclusion).toEqual({
      id: 'none-recorded',
      settled: false,
      possible: ['supported', 'uncertain', 'not-supported', 'none-recorded'],
    });
    const settled = await judge(need, {
      ...adult,
      'urine.scan': exactly(200),
      'catheter.material': oneOf('pvc'),
    });
    expect(settled.conclusion).toEqual({ id: 'none-recorded', settled: true, possible: ['none-recorded'] });
  });
});
