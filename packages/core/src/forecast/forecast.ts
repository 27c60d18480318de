import { evaluate } from '../evaluate/evaluate.ts';
import type { Assessment, CheckWord, Outcome } from '../explain/assessment.ts';
import { explain } from '../explain/explain.ts';
import type { Case } from '../facts/case.ts';
import { formatInstant, parseInstant } from '../facts/time.ts';
import type { Plan } from '../plan/plan.ts';
import { instantsToWatch } from './instants.ts';

/** What changes at one instant, if nothing but time happens. */
export interface ForecastChange {
  /** ISO 8601 in UTC. */
  readonly at: string;
  readonly rules: readonly {
    readonly set: string;
    readonly rule: string;
    readonly from: Outcome;
    readonly to: Outcome;
    readonly check?: { readonly from: CheckWord; readonly to: CheckWord };
  }[];
  readonly conclusions: readonly { readonly set: string; readonly from?: string; readonly to?: string }[];
  readonly advice: { readonly new: readonly string[]; readonly gone: readonly string[] };
}

export interface Forecast {
  readonly from: string;
  readonly to: string;
  readonly caution: readonly string[];
  readonly changes: readonly ForecastChange[];
  /** Summary and place of every advice that a change brings, as it will read then. */
  readonly upcoming: Readonly<Record<string, string>>;
}

const MS_PER_HOUR = 3_600_000;

/** Nobody reads a question of a moment that is yet to come. */
const WITHOUT_REASONS = { reasons: 'none', asks: false, optionFacts: false } as const;

/**
 * How the outcomes of one case move as time alone passes: the instants are computed, not polled. `hours` is how
 * far to look ahead. A case without a usable moment has no forecast: its changes are empty.
 */
export function forecast(plan: Plan, patient: Case, { hours }: { readonly hours: number }): Forecast {
  const from = typeof patient?.asOf === 'string' ? parseInstant(patient.asOf) : undefined;
  const at = (instant: number): Assessment =>
    explain(evaluate(plan, patient, { asOf: instant }), WITHOUT_REASONS);
  const start = explain(evaluate(plan, patient), WITHOUT_REASONS);
  if (from === undefined || !(hours > 0)) {
    return { from: start.asOf, to: start.asOf, caution: start.caution, changes: [], upcoming: {} };
  }
  const to = from + hours * MS_PER_HOUR;
  const changes: ForecastChange[] = [];
  const upcoming: Record<string, string> = {};
  let before = start;
  for (const instant of instantsToWatch(plan, patient, from, to)) {
    const after = at(instant);
    const change = difference(formatInstant(instant), before, after);
    if (change) {
      changes.push(change);
      for (const { id, summary } of after.advice) if (change.advice.new.includes(id)) upcoming[id] = summary;
    }
    before = after;
  }
  return { from: formatInstant(from), to: formatInstant(to), caution: start.caution, changes, upcoming };
}

function difference(at: string, before: Assessment, after: Assessment): ForecastChange | undefined {
  const rules = after.ruleSets.flatMap((set, index) =>
    set.rules.flatMap((rule, place) => {
      const earlier = before.ruleSets[index]!.rules[place]!;
      if (rule.outcome === earlier.outcome && rule.check === earlier.check) return [];
      const check = rule.check && earlier.check ? { check: { from: earlier.check, to: rule.check } } : {};
      return [{ set: set.id, rule: rule.id, from: earlier.outcome, to: rule.outcome, ...check }];
    }),
  );
  const conclusions = after.ruleSets.flatMap((set, index) => {
    const [from, to] = [before.ruleSets[index]!.conclusion, set.conclusion];
    if (from?.id === to?.id && from?.settled === to?.settled) return [];
    return [{ set: set.id, ...(from?.id ? { from: from.id } : {}), ...(to?.id ? { to: to.id } : {}) }];
  });
  const ids = (assessment: Assessment): string[] => assessment.advice.map(({ id }) => id);
  const [old, now] = [new Set(ids(before)), new Set(ids(after))];
  const advice = {
    new: [...now].filter((id) => !old.has(id)),
    gone: [...old].filter((id) => !now.has(id)),
  };
  const isChange = rules.length + conclusions.length + advice.new.length + advice.gone.length > 0;
  return isChange ? { at, rules, conclusions, advice } : undefined;
}
