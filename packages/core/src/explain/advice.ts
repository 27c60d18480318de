import type { JudgedChoice } from '../evaluate/choice.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import type { Reading } from '../facts/reading.ts';
import { parseInstant } from '../facts/time.ts';
import { UNKNOWN } from '../facts/truth.ts';
import type { PlanSet } from '../plan/plan.ts';
import { INDICATORS, type Indicator } from '../release/rule.ts';
import type { Advice, Outcome } from './assessment.ts';
import { freeze, type Prepared, preparedOf } from './prepared.ts';

/** One rule set with what was found for each of its rules. */
export interface JudgedSet {
  readonly set: PlanSet;
  readonly truths: readonly RuleTruths[];
  readonly choices: readonly JudgedChoice[];
}

/** Everything that speaks, in order: locked critical, critical, warning, info; then rule sets and rules in order. */
export function adviceOf(evaluation: Evaluation, judged: readonly JudgedSet[]): Advice[] {
  const ranked: Advice[][] = RANKS.map(() => []);
  for (const set of judged) {
    const prepared = preparedOf(set.set);
    const own = speaking({ evaluation, set: set.set, prepared }, set);
    for (const advice of prepared.foldedBy.size === 0 ? own : fold(set, own, prepared)) {
      ranked[rank(advice)]!.push(advice);
    }
  }
  return ranked.flat();
}

const RANKS = ['locked critical', ...INDICATORS];

const rank = ({ indicator, locked }: Advice): number =>
  locked && indicator === 'critical' ? 0 : INDICATORS.length - INDICATORS.indexOf(indicator);

/** One set speaking to one case. */
interface Speaker {
  readonly evaluation: Evaluation;
  readonly set: PlanSet;
  readonly prepared: Prepared;
}

function speaking(speaker: Speaker, { set, truths, choices }: JudgedSet): Advice[] {
  const spoken: Advice[] = [];
  for (let index = 0; index < truths.length; index += 1) {
    const plan = set.rules[index]!;
    if (truths[index]!.outcome !== 'applies' || plan.rule.advice === undefined) continue;
    const chosen = choices.find((choice) => choice.chosen?.excludedBy.includes(plan))?.chosen;
    const isAboutPatient =
      set.release.shape !== 'choice' || (plan.when !== undefined && plan.excludes !== undefined);
    if (isAboutPatient || chosen !== undefined) spoken.push(said(speaker, index, chosen?.option.readings));
  }
  return spoken;
}

/** Advice that says the same of every case is put down once and shared. */
function said(speaker: Speaker, index: number, chosen: ReadonlyMap<string, Reading> | undefined): Advice {
  const { evaluation, set, prepared } = speaker;
  const own = prepared.rule(index);
  const isShared =
    own.isFixed && chosen === undefined && !set.rules[index]!.rule.locked && !hasResponses(evaluation);
  if (!isShared) return one(speaker, index, chosen);
  if (own.advice === undefined) {
    own.advice = one(speaker, index, undefined);
    freeze(own.advice);
  }
  return own.advice;
}

const hasResponses = ({ case: patient }: Evaluation): boolean =>
  (patient as { responses?: unknown } | null)?.responses !== undefined;

type Spoken = { -readonly [Key in keyof Advice]: Advice[Key] };

const NONE: readonly never[] = Object.freeze([]);

/** Put down key by key in a fixed order; what no case changes is shared by all. */
function one(
  { evaluation, set, prepared }: Speaker,
  index: number,
  chosen: ReadonlyMap<string, Reading> | undefined,
): Advice {
  const { rule } = set.rules[index]!;
  const { adviceId: id, evidence, memoryOnly } = prepared.rule(index);
  const readings = chosen ?? evaluation.readings;
  const text = (place: string): string => prepared.texts.expand(place, readings, evaluation.zone);
  const advice = rule.advice!;
  const { detail = NONE, suggestions = NONE } = advice;
  const locked = rule.locked === true;
  const indicator: Indicator = chosen !== undefined && locked ? 'critical' : advice.indicator;
  const out: Spoken = {
    id,
    set: set.release.id,
    rule: rule.id,
    summary: text(advice.summary),
    detail: (typeof detail === 'string' ? [detail] : detail).map(text),
    indicator,
    locked,
    because: text(rule.because),
    suggestions: suggestions.map(({ label }) => ({ label: text(label) })),
    overrideReasons: advice.overrideReasons ?? NONE,
    evidence,
    memoryOnly,
    folded: NONE,
  };
  const answered = locked && indicator === 'critical' ? undefined : responseTo(id, evaluation);
  if (answered) out.answered = answered;
  if (locked && !rule.anyPopulation && isOpen(set, evaluation)) out.populationNotEstablished = true;
  if (chosen !== undefined) out.chosen = rule.of ?? '';
  if (rule.local) out.local = rule.local;
  return out;
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
function fold({ set, truths }: JudgedSet, spoken: readonly Advice[], { foldedBy }: Prepared): Advice[] {
  const places = new Map(set.rules.map(({ rule }, at) => [rule.id, at]));
  const outcomeOf = (rule: string): Outcome | undefined => truths[places.get(rule) ?? -1]?.outcome;
  const isFoldable = ({ locked, indicator }: Advice): boolean => !(locked && indicator === 'critical');
  const below = (rule: string, seen: ReadonlySet<string> = new Set([rule])): string[] =>
    (set.rules[places.get(rule)!]?.rule.supersedes ?? []).flatMap((id) => {
      if (seen.has(id)) return [];
      return [id, ...(outcomeOf(id) === 'applies' ? below(id, new Set([...seen, id])) : [])];
    });
  const foldable = new Map(spoken.filter(isFoldable).map(({ rule, id }) => [rule, id]));
  const folded = new Map<string, string[]>();
  for (const { rule } of spoken)
    folded.set(
      rule,
      [...new Set(below(rule))].filter((id) => foldable.has(id)),
    );
  const gone = new Set([...folded.values()].flat());
  return spoken.flatMap((advice) => {
    if (gone.has(advice.rule)) return [];
    const stronger = (foldedBy.get(advice.rule) ?? [])
      .filter((at) => truths[at]!.outcome === 'undetermined')
      .map((at) => set.rules[at]!.rule.id);
    const own = (folded.get(advice.rule) ?? []).map((rule) => foldable.get(rule)!);
    return [{ ...advice, folded: own, ...(stronger.length > 0 ? { strongerUndecided: stronger } : {}) }];
  });
}
