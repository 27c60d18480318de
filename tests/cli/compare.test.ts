import { join } from 'node:path';
import { CAUTIONS } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { document, policies } from './folder.ts';
import { dwellset } from './run.ts';

const flat = (text: string): string => text.replace(/\s+/g, ' ');
const WARD = {
  $schema: 'urn:dwellset:ward:1',
  id: 'hill',
  title: 'An invented ward',
  timeZone: 'Europe/London',
  start: '2026-03-02T08:00:00Z',
  patients: 4,
  arriveWithinDays: 1,
  stayDays: [3, 5],
  stages: [
    {
      id: 'in',
      hours: [0, 0],
      facts: {
        'catheter.stage': { oneOf: [{ value: 'in-place' }] },
        'catheter.hours-in': { between: [20, 90], step: 1, unit: 'h' },
      },
    },
  ],
};
const ward = { 'wards/hill.json': WARD };
const rule = document('dwell/too-long.rule.json');
const at = policies(ward);

const compared = async (changes: Readonly<Record<string, unknown>>): Promise<string> => {
  const { code, out, err } = await dwellset([
    'compare',
    at,
    policies({ ...ward, ...changes }),
    '--policies',
    at,
  ]);
  expect(err).toBe('');
  expect(code).toBe(0);
  return flat(out);
};

describe('compare', () => {
  test('a folder beside itself: no outcome changed, and on what that was tried', async () => {
    const text = await compared({});
    expect(text).toContain('No outcome changed.');
    expect(text).toMatch(
      /Both sides were run on 3 vignettes and 1\d invented ward days: \d+ answers laid side by side\./,
    );
    expect(text).toContain('No new version is needed.');
    for (const caution of CAUTIONS) expect(text).toContain(caution);
  });

  test('a limit moved by an hour is shown on exactly that hour, though no vignette has it', async () => {
    const choices = document('choices/dwell.json');
    const [longest] = choices.parameters as Record<string, unknown>[];
    longest!.default = 49;
    const text = await compared({ 'choices/dwell.json': choices });
    expect(text).toContain('"In place for long" (too-long) no longer speaks.');
    expect(text).toContain('hours in place: 49 h');
    expect(text).toContain('in force: was 48 h; is 49 h');
    expect(text).toContain('This demands a major version.');
  });

  test('other words alone are a patch', async () => {
    const text = await compared({ 'dwell/too-long.rule.json': { ...rule, because: 'Other words.' } });
    expect(text).toContain('No outcome changed.');
    expect(text).toContain(
      'because: was "Every further day adds to the risk of infection."; is "Other words."',
    );
    expect(text).toContain('This demands a patch version.');
  });

  test('a rule more is a minor version', async () => {
    const set = { ...document('dwell/ruleset.json'), rules: ['too-long', 'short'] };
    const short = {
      ...rule,
      id: 'short',
      title: 'Short',
      when: { fact: 'catheter.hours-in', operator: 'lessThan', value: 12 },
    };
    const text = await compared({ 'dwell/ruleset.json': set, 'dwell/short.rule.json': short });
    expect(text).toContain('"Short" (short) speaks where it was silent or undecided.');
    expect(text).toContain('This demands a minor version.');
  });

  test('a hospital on a base that moved on is asked about each of its changes', async () => {
    const choices = document('choices/dwell.json');
    const [longest] = choices.parameters as Record<string, unknown>[];
    longest!.default = 36;
    const old = policies();
    await dwellset(['pin', join(old, 'hospitals/thornleigh'), '--policies', old]);
    const next = policies({ 'choices/dwell.json': choices });
    const ask = ['compare', join(old, 'hospitals/thornleigh'), '--policies', old, '--base', next];
    const { code, out, err } = await dwellset(ask);
    expect([code, err]).toEqual([0, '']);
    const text = flat(out);
    expect(text).toContain('1 change to be decided, 0 to be looked at, 0 no longer needed, 0 as before.');
    expect(text).toContain('1. longest time in place (dwell.longest): here 72 h – three rounds a week');
    expect(text).toContain('published: in force: was 48 h; is 36 h');
    expect(text).toContain('Does the hospital keep 72 h, or take the published value?');
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    const data = JSON.parse((await dwellset([...ask, '--as', 'json'])).out);
    expect(data.sets[0]).toMatchObject({
      pinned: true,
      changes: [{ item: 'dwell.longest', standing: 'conflict' }],
    });
    const surplus = await dwellset([...ask, '--set', 'dwell']);
    expect([surplus.code, surplus.err]).toEqual([1, expect.stringContaining('goes with one hospital')]);
  });

  test('says plainly what it cannot compare', async () => {
    const { code, err } = await dwellset([
      'compare',
      'nowhere',
      '--hospital',
      'thornleigh',
      '--policies',
      at,
    ]);
    expect(code).toBe(1);
    expect(err).toContain('there is no rule set `nowhere`');
  });
});

describe('burden', () => {
  test('says that the ward is invented, and counts by rule', async () => {
    const { code, out } = await dwellset(['burden', '--policies', at, '--allow', 'draft']);
    expect(code).toBe(0);
    expect(flat(out)).toContain('This ward is invented.');
    expect(out).toMatch(/In place for long {2,}0\.\d\d/);
    expect(out).toMatch(/day 1 .*#/);
    const again = await dwellset(['burden', '--policies', at, '--allow', 'draft']);
    expect(again.out).toBe(out);
    const other = await dwellset(['burden', 'hill', '--policies', join(at), '--seed', '9']);
    expect(other.out).not.toBe(out);
  });
});
