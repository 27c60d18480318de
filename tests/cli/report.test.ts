import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CAUTIONS } from '@dwellset/core';
import { DOMParser } from '@xmldom/xmldom';
import { expect, test } from 'vitest';
import { parsed } from '../wording/parsed.ts';
import { document, policies } from './folder.ts';
import { dwellset } from './run.ts';

const at = policies();
const flat = (text: string): string => text.replace(/\s+/g, ' ');

test('a set is reported with its gates; a refusal is in the exit code and first on the page', async () => {
  const file = join(at, 'report.html');
  const { code, out, err } = await dwellset(['report', 'dwell', '--to', file, '--policies', at]);
  expect([code, out, err]).toEqual([2, `${file}\n`, '']);
  const { text, errors } = parsed(readFileSync(file, 'utf8'));
  expect(errors).toEqual([]);
  for (const caution of CAUTIONS) expect(text).toContain(caution);
  expect(text).toMatch(/Open findings .* dwell · coverage refused .* dwell · mutation refused/);
});

test('gates that were not asked for are said not to have been run, and are no pass', async () => {
  const asked = ['report', 'dwell', '--as', 'junit', '--gate', 'vignettes', '--policies', at];
  const { code, out } = await dwellset(asked);
  expect(code).toBe(0);
  const xml = new DOMParser().parseFromString(out, 'text/xml');
  const suites = [...xml.getElementsByTagName('testsuite')];
  const gates = suites.find((one) => one.getAttribute('name') === 'gates.dwell')!;
  expect([gates.getAttribute('tests'), gates.getAttribute('skipped')]).toEqual(['8', '7']);
  const vignettes = suites.find((one) => one.getAttribute('name') === 'vignettes.dwell')!;
  expect([vignettes.getAttribute('tests'), vignettes.getAttribute('failures')]).toEqual(['3', '0']);
});

test('a hospital is reported beside what is published, its change with its reason', async () => {
  await dwellset(['pin', join(at, 'hospitals/thornleigh'), '--policies', at]);
  const { code, out } = await dwellset([
    'report',
    '--hospital',
    'thornleigh',
    '--as',
    'markdown',
    '--policies',
    at,
  ]);
  expect(code).toBe(0);
  const text = flat(out.replaceAll('\\', ''));
  expect(text).toContain('# Report on the rules of Thornleigh Infirmary');
  expect(text).toContain('Adopted by Thornleigh Infirmary');
  expect(text).toContain('Longest time in place: 72 h here, 48 h as published – three rounds a week');
  expect(text).toContain('"In place for long" (too-long) no longer speaks.');
  expect(text).toContain('1 changed by local policy.');
  // A change is no failure, and no approval either; gates that were not run are no pass.
  expect(text).toContain('1 published vignette changed by local policy: is this what is wanted?');
  expect(text).toContain('No gate of a release was run for this report');
  expect(text).not.toContain('Nothing is open');
});

test('what cannot be written or asked for is said plainly', async () => {
  for (const [argv, said] of [
    [['--as', 'junit', '--to', 'x.html'], 'must end in `.xml`'],
    [['--gate', 'nothing'], '`--gate nothing` is not known'],
    [['--hospital', 'thornleigh', '--gate', 'check'], 'do not go with `--hospital`'],
    [['nowhere', '--gate', 'version'], 'there is no rule set `nowhere`'],
  ] as const) {
    const { code, err } = await dwellset(['report', ...argv, '--policies', at]);
    expect([code, err]).toEqual([1, expect.stringContaining(said)]);
  }
});

test('a mistake that no vignette notices is listed with a patient who shows it, and fails the run', async () => {
  const missed = await dwellset(['mutate', 'dwell', '--policies', at]);
  expect(missed.code).toBe(2);
  const text = flat(missed.out);
  expect(text).toMatch(
    /Asked for: 95 % of what has an effect, and everything that a locked rule rests on: not reached in dwell\./,
  );
  expect(text).toContain('hours in place');
  for (const caution of CAUTIONS) expect(text).toContain(caution);
  expect((await dwellset(['mutate', 'dwell', '--least', '0', '--policies', at])).code).toBe(0);
});

test('vignettes just below, at and above the limit notice every mistake that has an effect', async () => {
  const vignettes = document('dwell/too-long.vignettes.json');
  const hours = (value: number, outcome: string) => ({
    id: `hours-${value}`,
    title: `${value} hours in place`,
    facts: { 'catheter.hours-in': { value, unit: 'h' } },
    expect: { rules: { 'too-long': outcome } },
  });
  vignettes.vignettes = [
    ...(vignettes.vignettes as object[]),
    ...[hours(47, 'does-not-apply'), hours(48, 'does-not-apply'), hours(49, 'applies')],
  ];
  const sharp = policies({ 'dwell/too-long.vignettes.json': vignettes });
  const { code, out } = await dwellset([
    'mutate',
    'dwell',
    '--rule',
    'too-long',
    '--least',
    '100',
    '--policies',
    sharp,
  ]);
  expect([code, flat(out)]).toEqual([0, expect.stringContaining(': reached.')]);
});

test('mutate says which rule or percentage it does not know', async () => {
  for (const [argv, said] of [
    [['--rule', 'nothing'], 'there is no rule `nothing`'],
    [['nowhere'], 'there is no rule set `nowhere`'],
    [['--least', 'most'], '`--least most`'],
  ] as const) {
    const { code, err } = await dwellset(['mutate', ...argv, '--policies', at]);
    expect([code, err]).toEqual([1, expect.stringContaining(said)]);
  }
});
