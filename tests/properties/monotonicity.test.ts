import { assess, type Case, compile, evaluate, type Plan } from '@dwellset/core';
import { expect, test } from 'vitest';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';

const SEED = 1_848;
const REFUSED = ['conflicting', 'impossible', 'unusual', 'wrong-type', 'wrong-unit'];
/** Whether a rule speaks: out of scope and not applying are the same silence. */
const SPEAKS: Readonly<Record<string, boolean | undefined>> = {
  applies: true,
  'does-not-apply': false,
  'not-in-scope': false,
};

/**
 * Every rule but the locked ones of a set whose population is not established: those speak until it is, and fall
 * silent where it turns out to be another one.
 */
function read(plan: Plan, patient: Case) {
  const rules = assess(plan, patient, { reasons: 'none' }).ruleSets.flatMap((set) =>
    set.rules
      .filter((rule) => !(rule.locked && set.population === 'not-established'))
      .map((rule) => [`${set.id}/${rule.id}`, SPEAKS[rule.outcome]] as const),
  );
  const refused = [...evaluate(plan, patient).readings].flatMap(([id, { cause }]) =>
    cause !== undefined && REFUSED.includes(cause) ? [`${id} ${cause}`] : [],
  );
  return { rules: new Map(rules), refused: new Set(refused) };
}

test('supplying what was missing flips no settled rule, and unsettles one only where a value is refused', () => {
  const draw = random(SEED);
  let settled = 0;
  for (let set = 0; set < 300; set++) {
    const generated = generateReleases(draw);
    const plan = compile(generated.releases, { allow: ['draft'] });
    for (let index = 0; index < 12; index++) {
      const [full, donor] = [generateCase(draw, generated), generateCase(draw, generated)];
      const { searched: _, ...patient } = full;
      const missing = Object.keys(donor.facts).filter((id) => isMissing(plan, patient, id));
      const supplied = {
        ...patient,
        facts: { ...full.facts, ...pick(donor.facts, draw.some(missing, 0.6)) },
      };
      const [before, after] = [read(plan, patient), read(plan, supplied)];
      const isRefused = [...after.refused].some((one) => !before.refused.has(one));
      for (const [rule, spoke] of before.rules) {
        if (spoke === undefined || !after.rules.has(rule)) continue;
        settled++;
        const speaks = after.rules.get(rule);
        const allowed = isRefused ? [spoke, undefined] : [spoke];
        if (!allowed.includes(speaks))
          expect({ seed: SEED, set, index, rule, spoke, speaks, patient, supplied }).toBeUndefined();
      }
    }
  }
  expect(settled).toBeGreaterThan(5000);
});

/**
 * A fact that nobody has supplied. Derived facts follow from these: stating one outright takes the place of what
 * follows, and is no missing fact found.
 */
function isMissing(plan: Plan, patient: Case, id: string): boolean {
  return !Object.hasOwn(patient.facts, id) && plan.facts.get(id)?.from === undefined;
}

function pick(facts: Case['facts'], ids: readonly string[]): Case['facts'] {
  return Object.fromEntries(ids.map((id) => [id, facts[id] as Case['facts'][string]]));
}
