import { vignetteSeeds } from '@dwellset/authoring';
import { type Case, compile, type Outcome, type Plan, type Release } from '@dwellset/core';
import { library, planOf } from '../policies/shipped.ts';
import { random } from '../reference/generate/random.ts';
import type { Arguments } from './arguments.ts';
import { generate } from './generate.ts';
import { naive } from './naive.ts';
import { type PlainCase, type PlainRule, plainCase, plainRules } from './twoValued.ts';

/** Rules and cases that every engine is given, each in the form that it takes. */
export interface Subject {
  readonly name: string;
  readonly plan: Plan;
  readonly rules: number;
  readonly cases: readonly Case[];
  readonly plainRules: readonly PlainRule[];
  readonly plainCases: readonly PlainCase[];
}

const MOST_DISTINCT = 2000;

function subject(name: string, plan: Plan, releases: readonly Release[], cases: readonly Case[]): Subject {
  const rules = releases.flatMap((release) => plainRules(release, plan));
  const given = cases.map((patient) => plainCase(plan, patient));
  return { name, plan, rules: rules.length, cases, plainRules: rules, plainCases: given };
}

export function invented(rules: number, seed: number, { missing }: Pick<Arguments, 'missing'>): Subject {
  const { release, cases } = generate({ rules, cases: MOST_DISTINCT, seed, missing });
  return subject(
    `${rules.toLocaleString('en')} rules`,
    compile([release], { allow: ['draft'] }),
    [release],
    cases,
  );
}

/** All shipped rule sets at once, on the cases of their vignettes with some of the facts taken out. */
export function shipped(seed: number, { missing }: Pick<Arguments, 'missing'>): Subject {
  const sets = [...library.sets.keys()];
  const plan = planOf(sets);
  const draw = random(seed);
  const cases = sets
    .flatMap((set) => vignetteSeeds(library, set).map((one) => one.case))
    .map((patient): Case => {
      const left = Object.entries(patient.facts).filter(() => !draw.chance(missing));
      return { ...patient, facts: Object.fromEntries(left) };
    });
  return subject(
    'shipped rules',
    plan,
    plan.sets.map(({ release }) => release),
    cases,
  );
}

/** What a plain reading of the conditions says; only for rules without a population. */
export function naiveOutcome(rule: PlainRule, given: PlainCase): Outcome {
  const scope = naive(rule.scope, given);
  if (scope === false) return 'not-in-scope';
  const when = naive(rule.when, given);
  if (when === false) return 'does-not-apply';
  return scope && when ? 'applies' : 'undetermined';
}

/** So many cases, the same ones again where there are not enough. */
export const manyOf = <T>(cases: readonly T[], count: number): T[] =>
  Array.from({ length: count }, (_, at) => cases[at % cases.length]!);
