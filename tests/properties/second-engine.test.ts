import { compile } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const SEED = 20_270_101;

test('the second engine says the same of 20 random rule sets × 100 random cases', async () => {
  let compared = 0;
  for (let set = 0; set < 20; set++) {
    const draw = random(SEED + set);
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 100; index++) {
      const patient = generateCase(draw, generated);
      const checked = await crossCheck(plan, patient);
      expect(checked.disagreements, `seed ${SEED + set}, case ${index}`).toEqual([]);
      expect(checked.agrees).toBe(true);
      compared += checked.compared;
    }
  }
  console.info(`seed ${SEED}: ${compared} results computed twice`);
  expect(compared).toBeGreaterThan(5000);
}, 180_000);
