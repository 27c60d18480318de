/// <reference types="node" />
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { firstDifference, withKeysShuffled } from './shuffle.ts';

const SCRIPT = fileURLToPath(new URL('./assess-in-process.mjs', import.meta.url));
const CORE = new URL('../../packages/core/dist/index.mjs', import.meta.url).href;

/** Runs the built core in a process of its own. */
function assessed(input: object, env: Readonly<Record<string, string>>): string {
  const { stdout, stderr, status } = spawnSync(process.execPath, [SCRIPT], {
    input: JSON.stringify({ core: CORE, ...input }),
    env: { PATH: process.env.PATH, ...env },
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout;
}

test('two processes in other zones and languages, given other key orders, write the same bytes', () => {
  const draw = random(31);
  for (let set = 0; set < 6; set++) {
    const generated = generateReleases(draw);
    const cases = Array.from({ length: 20 }, () => generateCase(draw, generated));
    const { releases } = generated;
    const here = assessed({ releases, cases }, { TZ: 'America/New_York', LANG: 'C' });
    const there = assessed(withKeysShuffled(draw, { releases, cases }), {
      TZ: 'Pacific/Auckland',
      LANG: 'tr_TR.UTF-8',
      LC_ALL: 'tr_TR.UTF-8',
    });
    expect(here.length).toBeGreaterThan(1000);
    expect(firstDifference(here, there)).toBeUndefined();
  }
});
