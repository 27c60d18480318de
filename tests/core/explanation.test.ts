import { assess, compile, Explanation, evaluate } from '@dwellset/core';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

test('what is read piece by piece of an explanation stands so in the assessment', () => {
  const draw = random(20_261_128);
  let [rules, advice] = [0, 0];
  for (let set = 0; set < 40; set += 1) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 4; index += 1) {
      const patient = generateCase(draw, generated);
      for (const reasons of ['all', 'deciding', 'none'] as const) {
        const whole = assess(plan, patient, { reasons });
        const explanation = new Explanation(evaluate(plan, patient));
        expect(JSON.stringify(explanation.advice())).toBe(JSON.stringify(whole.advice));
        advice += whole.advice.length;
        // Last rule first: no piece rests on what was asked for before.
        for (const { id, rules: own } of whole.ruleSets) {
          for (const rule of own.toReversed()) {
            rules += 1;
            expect(JSON.stringify(explanation.rule(id, rule.id, { reasons }))).toBe(JSON.stringify(rule));
          }
          const applying = own.filter(({ outcome }) => outcome === 'applies');
          const found = explanation.rules(id, { reasons, outcomes: ['applies'] });
          expect(JSON.stringify(found)).toBe(JSON.stringify(applying));
        }
      }
    }
  }
  expect(rules).toBeGreaterThan(1000);
  expect(advice).toBeGreaterThan(100);
});

test('an explanation has nothing of a rule or set that is not there', () => {
  const release = makeRelease({
    facts: [makeFact('a.sign', { type: 'boolean' })],
    rules: [makeRule('sign', { when: leaf('a.sign', 'equal', true) })],
  });
  const plan = compile([release], { allow: ['draft'] });
  const explanation = new Explanation(evaluate(plan, makeCase({ 'a.sign': true })));
  expect(explanation.rule('invented', 'sign')?.outcome).toBe('applies');
  expect(explanation.rule('invented', 'other')).toBeUndefined();
  expect(explanation.rule('other', 'sign')).toBeUndefined();
  expect(explanation.rules('other')).toEqual([]);
});
