import { buildRelease, type Library, readLibrary, runGates } from '@dwellset/authoring';
import type { Plan, Release, Rule } from '@dwellset/core';
import { crossCheck } from '@dwellset/crosscheck';
import { expect, test } from 'vitest';
import { secondEngine } from '../../packages/cli/src/gates/secondEngine.ts';
import { filesOf, policy } from '../authoring/fixture.ts';

const library: Library = readLibrary(filesOf(policy()));
const release = buildRelease(library, 'removal').release!;
const [known] = release.rules.filter(({ when }) => when !== undefined);

const outcome = async (engine?: typeof crossCheck) => {
  const [result] = await runGates([secondEngine(engine)], { library, release }, new Map());
  return result!;
};

/** The real second engine, given rules in which a translator took one condition for its opposite. */
const mistranslated: typeof crossCheck = (plan, patient) => {
  const turned = (rule: Rule): Rule =>
    rule.id === known!.id ? { ...rule, when: { not: rule.when! } } : rule;
  const planted = (of: Release): Release => ({ ...of, rules: of.rules.map(turned) });
  const sets: Plan['sets'] = plan.sets.map((set) => ({ ...set, release: planted(set.release) }));
  return crossCheck({ ...plan, sets }, patient);
};

test('the second engine passes the rules as they stand', async () => {
  expect(await outcome()).toEqual({ gate: 'second-engine', outcome: 'passed', findings: [] });
});

test('one condition translated into its opposite is refused, with the vignettes that show it', async () => {
  const { outcome: became, findings } = await outcome(mistranslated);
  expect(became).toBe('refused');
  expect(findings.join('\n')).toMatch(new RegExp(`^removal/\\S+: removal/${known!.id} `, 'm'));
  expect(
    findings.every((finding) => finding.includes(`/${known!.id} `) || finding.includes('removal/ ')),
  ).toBe(true);
});

test('an engine that compares nothing has not agreed', async () => {
  const { outcome: became, findings } = await outcome(async () => ({
    agrees: true,
    compared: 0,
    disagreements: [],
  }));
  expect(became).toBe('refused');
  expect(findings[0]).toMatch(/: 0$/);
});
