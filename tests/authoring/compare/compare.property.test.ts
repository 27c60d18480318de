/// <reference types="node" />
import { compareReleases, type Seed, type Side } from '@dwellset/authoring';
import { type Case, compile, evaluate, type Release, type Rule, ruleTruths, TRUE } from '@dwellset/core';
import { describe, expect, test } from 'vitest';
import { generateCase } from '../../reference/generate/cases.ts';
import { type Random, random } from '../../reference/generate/random.ts';
import { generateReleases } from '../../reference/generate/releases.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const RELEASES = 40;

const outcomesOf = (side: Side, patient: Case): ReadonlyMap<string, string> => {
  const plan = compile(side, { allow: ['draft'] });
  const { truths } = evaluate(plan, patient);
  const set = plan.sets[0]!;
  return new Map(
    set.rules.map((rule) => [
      rule.rule.id,
      ruleTruths(set, rule, (node) => (node === undefined ? TRUE : (truths[node.at] as 0 | 2 | 3))).outcome,
    ]),
  );
};

const spoken = (outcome: string | undefined): string | undefined =>
  outcome === 'applies' || outcome === 'undetermined' ? outcome : 'silent';

function drawn(seed: number) {
  const draw = random(seed);
  const generated = generateReleases(draw);
  const [first, ...read] = [...generated.releases].reverse();
  return { draw, generated, side: [first!, ...read] as Side };
}

const seedsOf = (cases: readonly Case[]): Seed[] =>
  cases.map((patient, index) => ({ from: 'vignette', name: `v${index}`, case: patient }));

/** One rule turned round, moved or switched off: what an author might do by mistake. */
function planted(draw: Random, release: Release): { readonly release: Release; readonly rule: string } {
  const rule = draw.pick(release.rules);
  const changes: (() => Partial<Rule>)[] = [
    () => ({ local: { change: 'switched-off', reason: 'planted' } }),
    ...(rule.when ? [() => ({ when: { not: rule.when! } })] : []),
    ...(rule.expect ? [() => ({ expect: { not: rule.expect! } })] : []),
    ...(rule.scope ? [() => ({ scope: { not: rule.scope! } })] : []),
  ];
  const changed = { ...rule, ...draw.pick(changes)() };
  return {
    release: { ...release, rules: release.rules.map((one) => (one === rule ? changed : one)) },
    rule: rule.id,
  };
}

describe('a version comparison', () => {
  test('is silent about a release laid beside itself, whatever the release and the cases', () => {
    for (let index = 0; index < RELEASES; index++) {
      const { draw, generated, side } = drawn(SEED + index);
      const seeds = seedsOf(Array.from({ length: 20 }, () => generateCase(draw, generated)));
      const found = compareReleases(side, structuredClone(side) as unknown as Side, seeds);
      expect(found.items, `seed ${SEED + index}`).toEqual([]);
      expect(found.outcomes).toEqual([]);
      expect(found.bump).toBe('none');
      expect(found.ran).toMatchObject({ vignettes: 20, probes: 0 });
      expect(found.ran.answers).toBeGreaterThan(0);
    }
  });

  test('finds a planted change without any vignette, and every witness shows it on the two releases', () => {
    let real = 0;
    let witnesses = 0;
    const missed: number[] = [];
    for (let index = 0; index < RELEASES; index++) {
      const { draw, generated, side } = drawn(SEED + 1000 + index);
      const { release, rule } = planted(draw, side[0]);
      const after: Side = [release, ...side.slice(1)];
      const found = compareReleases(side, after, []);
      const hidden = Array.from({ length: 150 }, () => generateCase(draw, generated));
      const isReal = hidden.some(
        (patient) =>
          spoken(outcomesOf(side, patient).get(rule)) !== spoken(outcomesOf(after, patient).get(rule)),
      );
      const own = found.outcomes.filter(({ subject }) => subject === rule);
      if (isReal) real += 1;
      if (isReal && own.length === 0) missed.push(SEED + 1000 + index);
      for (const { subject, witness } of found.outcomes) {
        if (subject === 'conclusion' || witness.item) continue;
        witnesses += 1;
        const [was, now] = [outcomesOf(side, witness.case), outcomesOf(after, witness.case)];
        expect(was.get(subject)).not.toBe(now.get(subject));
        for (const fact of Object.keys(witness.case.facts)) {
          const { [fact]: _, ...rest } = witness.case.facts;
          const less = { ...witness.case, facts: rest };
          const still =
            spoken(outcomesOf(side, less).get(subject)) === spoken(was.get(subject)) &&
            spoken(outcomesOf(after, less).get(subject)) === spoken(now.get(subject));
          expect(still, `${fact} is not needed, seed ${SEED + 1000 + index}`).toBe(false);
        }
      }
      if (own.length > 0) expect(found.bump).toBe('major');
    }
    console.info(`${real} of ${RELEASES} planted changes can be seen; ${witnesses} witnesses looked at`);
    expect(real).toBeGreaterThan(RELEASES / 3);
    expect(missed).toEqual([]);
  });
});
