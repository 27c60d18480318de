import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ReleaseFile } from '@dwellset/authoring';
import { expect, test } from 'vitest';
import { document, policies } from './folder.ts';
import { dwellset } from './run.ts';

const accept = ['--accept', 'coverage=small example', '--accept', 'mutation=small example'];
const released = (at: string, more: readonly string[] = accept) =>
  dwellset(['release', 'dwell', '--policies', at, ...more]);

test('a set is released once, with its results inside and a line in the change log', async () => {
  const at = policies();
  const { code, out } = await released(at);
  expect(out).toMatch(
    /check: passed\n {2}vignettes: passed\n {2}analysis: passed\n {2}coverage: accepted, \d findings? – small example\n(.*\n)*? {2}mutation: accepted, \d findings? – small example\n(.*\n)*? {2}hazards: passed/,
  );
  expect(code).toBe(0);
  const file = join(at, 'releases/dwell-0.1.0.json');
  const text = readFileSync(file, 'utf8');
  const kept = JSON.parse(text) as ReleaseFile;
  expect(kept.results.map(({ gate }) => gate)).toContain('second-engine');
  expect(kept.results.filter(({ outcome }) => outcome === 'accepted')).toMatchObject([
    {
      gate: 'coverage',
      findings: ['outcomes', 'truths', 'alone', 'limits'].map((total) => expect.stringContaining(total)),
      reason: 'small example',
    },
    { gate: 'mutation', reason: 'small example' },
  ]);
  expect(kept.vignettes['too-long']!.vignettes).toHaveLength(3);
  expect(readFileSync(join(at, 'dwell/CHANGELOG.md'), 'utf8')).toMatch(
    /## 0\.1\.0\n\n- First release, digest \w{12}\./,
  );
  expect((await released(at)).code).toBe(0);
  const rule = { ...document('dwell/too-long.rule.json'), because: 'Other words.' };
  writeFileSync(join(at, 'dwell/too-long.rule.json'), JSON.stringify(rule));
  const again = await released(at);
  expect(again.code).toBe(1);
  expect(again.err).toContain('is released already and never changes');
  expect(readFileSync(file, 'utf8')).toBe(text);
});

test('what changes an outcome needs a version that says so', async () => {
  const at = policies();
  await released(at);
  const set = { ...document('dwell/ruleset.json'), version: '0.1.1' };
  const choices = document('choices/dwell.json');
  (choices.parameters as Record<string, unknown>[])[0]!.default = 49;
  writeFileSync(join(at, 'dwell/ruleset.json'), JSON.stringify(set));
  writeFileSync(join(at, 'choices/dwell.json'), JSON.stringify(choices));
  const { code, out } = await released(at);
  expect(code).toBe(2);
  expect(out).toContain('version: refused, 1 finding\n     0.1.1 < 0.2.0');
  expect(existsSync(join(at, 'releases/dwell-0.1.1.json'))).toBe(false);
});

test('an uncovered set is refused without a reason, a failing vignette too', async () => {
  const vignettes = document('dwell/too-long.vignettes.json');
  const [first] = vignettes.vignettes as Record<string, unknown>[];
  first!.expect = { rules: { 'too-long': 'does-not-apply' } };
  const at = policies({ 'dwell/too-long.vignettes.json': vignettes });
  const { code, out } = await released(at, []);
  expect(code).toBe(2);
  expect(out).toContain('vignettes: refused, 1 finding\n     dwell/too-long/three-days');
  expect(out).toContain('coverage: refused');
  expect(out).toContain('Refused: nothing was written.');
});
