import type { JudgedChoice } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import type { Reading } from '../facts/reading.ts';
import { parseInstant } from '../facts/time.ts';
import { UNKNOWN } from '../facts/truth.ts';
import type { PlanRule, PlanSet } from '../plan/plan.ts';
import { INDICATORS, type Indicator } from '../release/rule.ts';
import type { Advice } from './assessment.ts';
import { evidenceShown, restsOnMemory } from './evidenceShown.ts';
import { expand } from './expand.ts';

/** One rule set with what was found for each of its rules. */
export interface JudgedSet {
  readonly set: PlanSet;
  readonly truths: readonly RuleTruths[];
  readonly choices: readonly JudgedChoice[];
}

const adviceId = ({ release }: PlanSet, rule: string): string => `${release.id}@${release.version}/${rule}`;

/** Everything that speaks, in order: locked critical, critical, warning, info; then rule sets and rules in order. */
export function adviceOf(evaluation: Evaluation, judged: readonly JudgedSet[]): Advice[] {
  const spoken = judged.flatMap((set) => fold(set, speaking(evaluation, set)));
  const rank = ({ indicator, locked }: Advice): number =>
    (INDICATORS.length - 1 - INDICATORS.indexOf(indicator)) * 2 -
    (locked && indicator === 'critical' ? 1 : 0);
  return spoken
    .map((advice, index) => ({ advice, index }))
    .sort((a, b) => rank(a.advice) - rank(b.advice) || a.index - b.index)
    .map(({ advice }) => advice);
}

function speaking(evaluation: Evaluation, { set, truths, choices }: JudgedSet): Advice[] {
  return set.rules.flatMap((plan, index) => {
    const { outcome } = truths[index]!;
    if (plan.rule.advice === undefined || outcome !== 'applies') return [];
    const chosen = choices.find((choice) => choice.chosen?.excludedBy.includes(plan))?.chosen;
    const isAboutPatient =
      set.release.shape !== 'choice' || (plan.when !== undefined && plan.excludes !== undefined);
    if (!isAboutPatient && chosen === undefined) return [];
    return [one(evaluation, set, plan, chosen?.option.readings)];
  });
}

function one(
  evaluation: Evaluation,
  set: PlanSet,
  { rule }: PlanRule,
  chosen: ReadonlyMap<string, Reading> | undefined,
): Advice {
  const text = (place: string): string =>
    expand(place, set.release, chosen ?? evaluation.readings, evaluation.zone);
  const advice = rule.advice!;
  const { detail = [] } = advice;
  const evidence = evidenceShown(set.release, rule.evidence);
  const locked = rule.locked === true;
  const indicator: Indicator = chosen !== undefined && locked ? 'critical' : advice.indicator;
  const id = adviceId(set, rule.id);
  const answered = locked && indicator === 'critical' ? undefined : responseTo(id, evaluation);
  return {
    id,
    set: set.release.id,
    rule: rule.id,
    summary: text(advice.summary),
    detail: (typeof detail === 'string' ? [detail] : detail).map(text),
    indicator,
    locked,
    because: text(rule.because),
    suggestions: (advice.suggestions ?? []).map(({ label }) => ({ label: text(label) })),
    overrideReasons: advice.overrideReasons ?? [],
    evidence,
    memoryOnly: restsOnMemory(evidence),
    folded: [],
    ...(answered ? { answered } : {}),
    ...(locked && !rule.anyPopulation && isOpen(set, evaluation)
      ? { populationNotEstablished: true as const }
      : {}),
    ...(chosen === undefined ? {} : { chosen: rule.of ?? '' }),
    ...(rule.local ? { local: rule.local } : {}),
  };
}

const isOpen = (set: PlanSet, { truths }: Evaluation): boolean =>
  set.population !== undefined && truths[set.population.at] === UNKNOWN;

/** An earlier answer to the same advice that still holds. */
function responseTo(id: string, { case: patient, asOf }: Evaluation): Advice['answered'] | undefined {
  const responses: unknown = (patient as { responses?: unknown } | null)?.responses;
  if (!Array.isArray(responses)) return undefined;
  for (const response of responses as unknown[]) {
    if (typeof response !== 'object' || response === null) continue;
    const { advice, reason, until } = response as Record<string, unknown>;
    if (advice !== id || typeof reason !== 'string' || typeof until !== 'string') continue;
    const end = parseInstant(until);
    if (end !== undefined && end > asOf) return { reason, until };
  }
  return undefined;
}

/** Folds what an applying rule supersedes; locked critical advice is never folded. */
function fold({ set, truths }: JudgedSet, spoken: readonly Advice[]): Advice[] {
  const outcomeOf = new Map(set.rules.map((plan, index) => [plan.rule.id, truths[index]!.outcome]));
  const supersedes = new Map(set.rules.map(({ rule }) => [rule.id, rule.supersedes ?? []]));
  const isFoldable = ({ locked, indicator }: Advice): boolean => !(locked && indicator === 'critical');
  const foldedBy = (rule: string, seen: ReadonlySet<string> = new Set([rule])): string[] =>
    (supersedes.get(rule) ?? []).flatMap((id) => {
      if (seen.has(id)) return [];
      const below = outcomeOf.get(id) === 'applies' ? foldedBy(id, new Set([...seen, id])) : [];
      return [id, ...below];
    });
  const foldable = new Set(spoken.filter(isFoldable).map(({ rule }) => rule));
  const folded = new Map<string, string[]>();
  for (const { rule } of spoken)
    folded.set(
      rule,
      [...new Set(foldedBy(rule))].filter((id) => foldable.has(id)),
    );
  const gone = new Set([...folded.values()].flat());
  return spoken
    .filter(({ rule }) => !gone.has(rule))
    .map((advice) => {
      const stronger = set.rules.flatMap(({ rule }) =>
        rule.supersedes?.includes(advice.rule) && outcomeOf.get(rule.id) === 'undetermined' ? [rule.id] : [],
      );
      return {
        ...advice,
        folded: (folded.get(advice.rule) ?? []).map((id) => adviceId(set, id)),
        ...(stronger.length > 0 ? { strongerUndecided: stronger } : {}),
      };
    });
}
