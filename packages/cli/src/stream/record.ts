import {
  type Assessment,
  CAUTIONS,
  type EvidenceShown,
  evidenceShown,
  type Outcome,
  type Plan,
  type RuleSetResult,
} from '@dwellset/core';

/** The first line: everything that is the same for every case, above all the cautions. */
export function headOf(plan: Plan, { engine, adoption, ruleSets }: Assessment) {
  const evidence: Record<string, readonly EvidenceShown[]> = {};
  for (const { release } of plan.sets) {
    for (const { id, advice, evidence: rests } of release.rules) {
      if (advice) evidence[`${release.id}@${release.version}/${id}`] = evidenceShown(release, rests);
    }
  }
  return {
    line: 0,
    head: {
      caution: CAUTIONS,
      engine,
      adoption,
      ruleSets: ruleSets.map(
        ({
          id,
          version,
          digest,
          title,
          shape,
          status,
          intendedUse,
          users,
          exclusions,
          limits,
          amendment,
        }) => ({
          ...{ id, version, digest, title, shape, status, intendedUse, users, exclusions, limits },
          ...(amendment ? { amendment } : {}),
        }),
      ),
      evidence,
    },
  };
}

/** One case without what the head says: outcomes by rule id, advice in full but for its evidence, questions. */
export function briefly(assessment: Assessment) {
  const { case: patient, asOf, caution, ruleSets, advice, ask, problems, counts } = assessment;
  return {
    case: patient,
    asOf,
    caution,
    ruleSets: ruleSets.map(briefSet),
    advice: advice.map(({ evidence: _inHead, ...rest }) => rest),
    ask: ask.map(({ rules: _counted, ...rest }) => rest),
    problems,
    counts,
  };
}

function briefSet({ id, population, outside, conclusion, compliance, choices, rules }: RuleSetResult) {
  const byOutcome: Partial<Record<Outcome, string[]>> = {};
  for (const rule of rules) {
    byOutcome[rule.outcome] ??= [];
    byOutcome[rule.outcome]!.push(rule.id);
  }
  return {
    id,
    population,
    ...(outside === undefined ? {} : { outside }),
    ...(conclusion ? { conclusion } : {}),
    ...(compliance ? { compliance } : {}),
    ...(choices
      ? {
          choices: choices.map(({ options, chosen, ...rest }) => ({
            ...rest,
            options: options.map(withoutFacts),
            ...(chosen ? { chosen: withoutFacts(chosen) } : {}),
          })),
        }
      : {}),
    rules: byOutcome,
  };
}

const withoutFacts = <T extends { readonly facts: unknown }>({
  facts: _facts,
  ...rest
}: T): Omit<T, 'facts'> => rest;
