import { assess, compile, type Release } from '@dwellset/core';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { firstDifference, shuffled, withKeysShuffled } from './shuffle.ts';

const SEED = 4_711;

function outcomes(releases: readonly Release[], patient: Parameters<typeof assess>[1]) {
  const { ruleSets } = assess(compile(releases, { allow: ['draft'] }), patient, { reasons: 'none' });
  return ruleSets.map(({ rules, compliance, conclusion }) => ({
    rules: Object.fromEntries(rules.map(({ id, outcome, check }) => [id, [outcome, check]])),
    compliance,
    conclusion,
  }));
}

test('the order in which rules stand changes no outcome, count or conclusion', () => {
  const draw = random(SEED);
  for (let set = 0; set < 60; set++) {
    const generated = generateReleases(draw);
    const turned = generated.releases.map((release) => ({
      ...release,
      rules: shuffled(draw, release.rules),
    }));
    for (let index = 0; index < 10; index++) {
      const patient = generateCase(draw, generated);
      expect(outcomes(turned, patient)).toEqual(outcomes(generated.releases, patient));
    }
  }
});

test('the order of keys in a case changes no byte of the assessment', () => {
  const draw = random(SEED + 1);
  for (let set = 0; set < 60; set++) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 10; index++) {
      const patient = generateCase(draw, generated);
      const written = JSON.stringify(assess(plan, patient, { reasons: 'all' }));
      const again = JSON.stringify(assess(plan, withKeysShuffled(draw, patient), { reasons: 'all' }));
      expect(firstDifference(written, again)).toBeUndefined();
    }
  }
});

test('the order of keys in a release changes no byte of the assessment', () => {
  const draw = random(SEED + 2);
  for (let set = 0; set < 60; set++) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const turned = compile(withKeysShuffled(draw, generated.releases), { allow: ['draft'] });
    for (let index = 0; index < 5; index++) {
      const patient = generateCase(draw, generated);
      const written = JSON.stringify(assess(plan, patient, { reasons: 'all' }));
      const again = JSON.stringify(assess(turned, patient, { reasons: 'all' }));
      expect(firstDifference(written, again)).toBeUndefined();
    }
  }
});

test('the cases that were assessed before change no byte of an assessment', () => {
  const draw = random(SEED + 3);
  for (let set = 0; set < 30; set++) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    const cases = Array.from({ length: 4 }, () => generateCase(draw, generated));
    for (let index = 0; index < 12; index++) {
      // Cases that are nearly alike differ in what decides, or only in how open they leave it.
      const stated = draw.some(
        cases.flatMap(({ facts }) => Object.entries(facts)),
        0.4,
      );
      const patient = { ...cases[0]!, facts: Object.fromEntries(stated) };
      const fresh = compile(generated.releases, { allow: ['draft'] });
      const written = JSON.stringify(assess(fresh, patient));
      expect(firstDifference(written, JSON.stringify(assess(plan, patient)))).toBeUndefined();
    }
  }
});
