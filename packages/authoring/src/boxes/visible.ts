import { assess, type Case, type Plan, type RuleSetResult } from '@dwellset/core';

/** One thing that an assessment says, in its own words, by what it is about. */
export type Said = ReadonlyMap<string, string>;

/** Everything that a set says about a patient, short of reasons, questions and texts. */
export function saidBy(plan: Plan, set: string, patient: Case): Said {
  const assessment = assess(plan, patient, { reasons: 'none', optionFacts: false, asks: false });
  const result = assessment.ruleSets.find(({ id }) => id === set);
  const spoken = assessment.advice.filter((advice) => advice.set === set).map(({ rule }) => rule);
  return new Map([...(result ? entriesOf(result) : []), ['advice', spoken.join(', ')]]);
}

function* entriesOf({ rules, conclusion, compliance, choices }: RuleSetResult): Generator<[string, string]> {
  for (const { id, outcome, check } of rules) yield [`rules.${id}`, check ?? outcome];
  if (conclusion) {
    yield ['conclusion', `${conclusion.id ?? 'none'}${conclusion.settled ? '' : ' for the time being'}`];
  }
  if (compliance) yield ['compliance', compliance.all];
  for (const { of, options, chosen } of choices ?? []) {
    for (const option of [...options, ...(chosen ? [{ ...chosen, id: 'chosen' }] : [])]) {
      yield [`options.${of}.${option.id}`, option.state];
      yield [`excluded.${of}.${option.id}`, option.excludedBy.join(', ')];
      yield [`preferred.${of}.${option.id}`, option.preferredBy.join(', ')];
      yield [`remarks.${of}.${option.id}`, option.remarks.map(({ rule }) => rule).join(', ')];
    }
    yield [`order.${of}`, options.map(({ id, rank }) => `${rank ?? '-'} ${id}`).join(', ')];
  }
}

/** What two plans say otherwise of the same patient. */
export function differing(a: Said, b: Said): { what: string; as: string; with: string }[] {
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((what) => {
    const [as, other] = [a.get(what) ?? 'nothing', b.get(what) ?? 'nothing'];
    return as === other ? [] : [{ what, as, with: other }];
  });
}
