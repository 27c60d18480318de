import { type Case, compile, type Outcome, type Plan, type Release } from '@dwellset/core';
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

/** Cases that differ from each other; fewer of large sets, as every engine needs its own form of them. */
const distinct = (rules: number): number => Math.max(200, Math.min(2000, Math.round(400_000 / rules)));

export function subjectOf(
  name: string,
  plan: Plan,
  releases: readonly Release[],
  cases: readonly Case[],
): Subject {
  const rules = releases.flatMap((release) => plainRules(release, plan));
  const given = cases.map((patient) => plainCase(plan, patient));
  return { name, plan, rules: rules.length, cases, plainRules: rules, plainCases: given };
}

export function invented(
  rules: number,
  seed: number,
  { missing }: Pick<Arguments, 'missing'>,
  count = distinct(rules),
): Subject {
  const { release, cases } = generate({ rules, cases: count, seed, missing });
  return subjectOf(
    `${rules.toLocaleString('en')} rules`,
    compile([release], { allow: ['draft'] }),
    [release],
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
