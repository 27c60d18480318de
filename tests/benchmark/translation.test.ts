import { describe, expect, it } from 'vitest';
import { agreement, naiveOutcomes, type Outcomes, TWO_VALUED, wrong } from './agreement.ts';
import { exactOnInvented } from './exact.ts';
import { invented, type Subject } from './subject.ts';

const whole = invented(60, 3, { missing: 0 }, 40);
const patchy = invented(60, 4, { missing: 0.15 }, 40);

describe('the rules as other engines are given them', () => {
  it.each(Object.keys(TWO_VALUED))(
    'speak in %s exactly where they apply while no fact is missing',
    async (name) => {
      const wanted = naiveOutcomes(whole, whole.cases.length);
      expect(wanted.flat().filter((outcome) => outcome === 'applies').length).toBeGreaterThan(300);
      expect(await wrong(TWO_VALUED[name]!(whole.plainRules), whole, wanted)).toEqual({
        firesOnUndetermined: 0,
        hidesUndetermined: 0,
        hidesDetermined: 0,
        firesOnDetermined: 0,
      });
    },
  );

  it.each(Object.keys(TWO_VALUED))(
    'say yes or no in %s where a missing fact leaves them open',
    async (name) => {
      const shares = await wrong(TWO_VALUED[name]!(patchy.plainRules), patchy, naiveOutcomes(patchy, 40));
      expect(shares.firesOnUndetermined).toBeGreaterThan(0);
      expect(shares.hidesUndetermined).toBeGreaterThan(0);
    },
  );
});

describe('what is timed', () => {
  it('agrees with a plain reading of the conditions, reasons and generated bit code included', async () => {
    const found = await exactOnInvented(patchy, 2400, 600);
    expect(found).toEqual({ outcomes: 2400, explanations: 600 });
  });

  it('is refused where one outcome differs', async () => {
    const wanted = naiveOutcomes(patchy, 20);
    const planted = wanted.map((row, at) => (at === 7 ? row.map(turned) : row)) as Outcomes;
    const { differing } = await agreement(patchy, planted, 20);
    expect(differing).toEqual({ 'one case': 1, 'many cases': 1, SQL: 1 });
    const other: Subject = { ...patchy, plainCases: patchy.plainCases.toReversed() };
    await expect(exactOnInvented(other, 2400, 0)).rejects.toThrow(/differ/);
  });
});

const turned = (outcome: Outcomes[number][number], rule: number): typeof outcome =>
  rule > 0 ? outcome : outcome === 'applies' ? 'undetermined' : 'applies';
