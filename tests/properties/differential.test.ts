/// <reference types="node" />
import { compile, evaluate, explain, OPERATORS } from '@dwellset/core';
import { expect, test } from 'vitest';
import { referenceAssess } from '../reference/assess.ts';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { type Disagreement, disagreements, readingDisagreements } from './compare.ts';
import { Mix } from './mix.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const SETS = 1000;
const CASES = 100;

test('the core and the plain reference say the same of 1,000 random rule sets × 100 random cases', () => {
  const mix = new Mix();
  const found: { seed: number; case: number; differ: readonly Disagreement[] }[] = [];
  let inCore = 0;
  for (let set = 0; set < SETS; set++) {
    const draw = random(SEED + set);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    mix.start(generated.releases);
    for (let index = 0; index < CASES; index++) {
      const patient = generateCase(draw, generated);
      const { sets, world } = referenceAssess(generated.releases, patient);
      const started = performance.now();
      const evaluation = evaluate(plan, patient);
      const assessment = explain(evaluation, { reasons: 'none' });
      inCore += performance.now() - started;
      const readings = index % 10 === 0 ? readingDisagreements(evaluation, world) : [];
      const differ = [...readings, ...disagreements(assessment, sets)];
      if (differ.length > 0) found.push({ seed: SEED + set, case: index, differ });
      mix.add(sets, world);
    }
  }
  const speed = ((1000 * SETS * CASES) / inCore).toFixed(0);
  console.info(`seed ${SEED}: ${mix.text()}; core ${speed} cases/s`);
  expect(found.slice(0, 5), `${found.length} cases differ`).toEqual([]);
  for (const outcome of ['applies', 'does-not-apply', 'undetermined', 'not-in-scope'])
    expect(mix.share(outcome), `share of ${outcome}`).toBeGreaterThanOrEqual(0.1);
  expect(mix.share('switched-off')).toBeGreaterThan(0);
  expect(mix.rarePairs(OPERATORS, 50)).toEqual([]);
}, 180_000);
