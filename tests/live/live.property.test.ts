/// <reference types="node" />
import { type Assessment, assess, assessLive, type Case, compile, type FactProvider } from '@dwellset/core';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { type Random, random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const SEED = Number(process.env.SEED ?? 4_107);

/** Everything that somebody acts on; not the questions left or the problems of facts that nobody fetched. */
const found = ({ ruleSets, advice, counts }: Assessment) => ({
  counts,
  advice,
  sets: ruleSets.map(({ id, population, conclusion, compliance, choices, rules }) => ({
    id,
    population,
    conclusion,
    compliance,
    choices: choices?.map(({ options, chosen, ...choice }) => ({
      ...choice,
      options: options.map(({ facts: _, ...option }) => option),
      chosen: chosen && { ...chosen, facts: [] },
    })),
    rules: rules.map(({ id: rule, outcome, check }) => ({ rule, outcome, check })),
  })),
});

/** Takes some facts out of a case and hands them to providers, each of one fact or several. */
function providersOf(draw: Random, full: Case, failing: number) {
  const offered = draw.some(Object.keys(full.facts), draw.pick([0.4, 0.8, 1]));
  const start = Object.fromEntries(Object.entries(full.facts).filter(([id]) => !offered.includes(id)));
  const expected: Record<string, Case['facts'][string]> = { ...full.facts };
  const providers: FactProvider[] = [];
  for (let at = 0; at < offered.length; ) {
    const facts = offered.slice(at, at + draw.integer(1, 3));
    at += facts.length;
    const fails = draw.chance(failing);
    if (fails) for (const id of facts) expected[id] = { absent: 'error' };
    providers.push({
      facts,
      cost: draw.integer(1, 9),
      fetch: () =>
        fails
          ? Promise.reject(new Error('down'))
          : Promise.resolve(Object.fromEntries(facts.map((id) => [id, full.facts[id]!]))),
    });
  }
  return { providers, start: { ...full, facts: start }, expected: { ...full, facts: expected } };
}

test.each([
  ['everything fetched', 0],
  ['the facts of failing providers absent as errors', 0.3],
])('facts fetched as needed lead to what follows with %s', async (_, failing) => {
  const draw = random(SEED + failing);
  let [spared, made, runs] = [0, 0, 0];
  for (let set = 0; set < 250; set++) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 8; index++) {
      const { providers, start, expected } = providersOf(draw, generateCase(draw, generated), failing);
      const live = await assessLive(plan, start, providers, { reasons: 'none' });
      const whole = found(assess(plan, expected, { reasons: 'none' }));
      expect(found(live.assessment), JSON.stringify({ SEED, failing, set, index })).toEqual(whole);
      expect(live.fetched.length + live.spared.length).toBe(providers.length);
      runs++;
      made += live.fetched.length;
      spared += live.spared.filter(({ because }) => because === 'not-needed').length;
    }
  }
  expect(runs).toBe(2000);
  expect(made).toBeGreaterThan(1000);
  expect(spared, 'and not simply everything is fetched').toBeGreaterThan(500);
});
