import { CAUTIONS } from '@dwellset/core';
import { expect, test } from 'vitest';
import { policies } from './folder.ts';
import { dwellset } from './run.ts';

const flat = (text: string): string => text.replace(/\s+/g, ' ');
const key = (differs?: string) => ({
  $schema: 'urn:dwellset:key:1',
  id: 'guide',
  title: 'What a guide says',
  source: 'invented',
  base: {
    asOf: '2026-06-01T09:00:00Z',
    timeZone: 'Europe/London',
    facts: { 'catheter.stage': 'in-place', 'catheter.hours-in': { value: 60, unit: 'h' } },
  },
  cases: [
    {
      id: 'sixty-hours',
      row: 'inv-01',
      locator: 'page 2',
      status: 'memory',
      says: 'At 60 hours nothing is said.',
      answer: { advice: { set: 'dwell', restsOn: ['inv-01'], speaks: false } },
      ...(differs === undefined ? {} : { differs }),
    },
  ],
});
const at = (differs?: string): string => policies({ 'published/guide.key.json': key(differs) });

test('a disagreement without a recorded reason is a failure', async () => {
  const { code, out } = await dwellset(['scoreboard', '--policies', at()]);
  expect(code).toBe(2);
  expect(out).toContain('No reason is recorded.');
  expect(flat(out)).toContain('here 48 h; with 72 h (inv-01) it would agree');
  for (const caution of CAUTIONS) expect(flat(out)).toContain(caution);
});

test('with a recorded reason it is told, and no failure', async () => {
  const { code, out } = await dwellset(['scoreboard', 'guide', '--policies', at('Two positions.')]);
  expect(code).toBe(0);
  expect(flat(out)).toContain('Reason Two positions.');
});

test('an unknown key is named with those that there are', async () => {
  const { code, err } = await dwellset(['scoreboard', 'gide', '--policies', at()]);
  expect(code).toBe(1);
  expect(err).toContain('there is no answer key `gide`; there are: guide');
});

const hazard = (control: string) => ({
  $schema: 'urn:dwellset:hazards:1',
  hazards: [
    {
      id: 'left-in',
      title: 'Left in',
      description: 'It stays too long.',
      causes: ['Nobody counts'],
      effect: 'Bacteria',
      harm: 'Infection',
      controls: [`dwell/${control}`],
      initial: { severity: 'Major', likelihood: 'Medium', risk: 3 },
      residual: { severity: 'Major', likelihood: 'Low', risk: 3 },
      owner: 'lead',
      status: 'open',
    },
  ],
});

test('check tries every control of the hazard log, and refuses one that proves nothing', async () => {
  const good = await dwellset(['check', policies({ 'hazards.json': hazard('three-days') })]);
  expect(good.out).not.toContain('control-');
  const bad = await dwellset(['check', policies({ 'hazards.json': hazard('one-day') })]);
  expect(bad.code).toBe(2);
  expect(bad.out).toMatch(/hazards\.json:14:9 · error · control-proves-nothing/);
});
