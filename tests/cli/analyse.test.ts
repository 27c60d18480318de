import { CAUTIONS } from '@dwellset/core';
import { expect, test } from 'vitest';
import { document, policies } from './folder.ts';
import { dwellset } from './run.ts';

const flat = (text: string): string => text.replace(/\s+/g, ' ');
/** The set asks for what its rule can never have. */
const disarmed = () => {
  const rule = document('dwell/too-long.rule.json');
  return policies({ 'dwell/too-long.rule.json': { ...rule, scope: { not: rule.when } } });
};

test('rules that are as they should be leave nothing open: exit code 0, with the cautions', async () => {
  const { code, out, err } = await dwellset(['analyse', '--policies', policies()]);
  expect([code, err]).toEqual([0, '']);
  expect(out).toContain('dwell: 1 rule, nothing found');
  for (const caution of CAUTIONS) expect(flat(out)).toContain(caution);
});

test('a finding stands with its place and its sentence, and the exit code is 2', async () => {
  const { code, out } = await dwellset(['analyse', 'dwell', '--policies', disarmed()]);
  expect(code).toBe(2);
  expect(out).toMatch(/\/dwell\/too-long\.rule\.json:\d+:\d+\n/);
  expect(flat(out)).toContain('(too-long) can never apply: no patient has everything it asks for.');
});

test('as JSON it is what was found, with the cautions', async () => {
  const { code, out } = await dwellset(['analyse', '--as', 'json', '--policies', disarmed()]);
  expect(code).toBe(2);
  const { sets, caution } = JSON.parse(out);
  expect(sets).toHaveLength(1);
  expect(sets[0].findings[0]).toMatchObject({
    kind: 'never-applies',
    of: ['too-long'],
    certainty: 'certain',
    proof: { facts: expect.arrayContaining(['catheter.hours-in']) },
  });
  expect(caution).toEqual(CAUTIONS);
});

test('a set that is not there cannot be analysed: exit code 1', async () => {
  const { code, err } = await dwellset(['analyse', 'nowhere', '--policies', policies()]);
  expect(code).toBe(1);
  expect(err).toContain('there is no rule set `nowhere`');
});
