import { assess, INDICATORS, type Indicator, type Plan } from '@dwellset/core';
import type { WardDay } from './simulate.ts';

/** How often one rule speaks on a ward. */
export interface RuleBurden {
  readonly set: string;
  readonly rule: string;
  readonly indicator: Indicator;
  /** Patient-days on which it speaks, unfolded. */
  readonly days: number;
  /** Of those, how many where it spoke to the same patient on the day before. */
  readonly repeats: number;
}

/** What a plan says over the days of a ward. All counts are sums over patient-days. */
export interface Burden {
  readonly patients: number;
  readonly patientDays: number;
  readonly advice: number;
  readonly repeats: number;
  readonly byIndicator: Readonly<Record<Indicator, number>>;
  /** Most frequent first; of equals, in order of sets and rules. */
  readonly rules: readonly RuleBurden[];
  /** Questions shown. */
  readonly questions: number;
  /** Rules that apply, and rules that could not be decided. */
  readonly applies: number;
  readonly undetermined: number;
  /** Advice a patient on the first round, the second and so on, with how many patients were still there. */
  readonly byDay: readonly { readonly patients: number; readonly advice: number }[];
  /** Patient-days with no advice, with one piece of advice, with two and so on. */
  readonly daysByAdvice: readonly number[];
}

/** Counts one more day with so many pieces of advice. */
export function countDay(daysByAdvice: number[], advice: number): void {
  while (daysByAdvice.length <= advice) daysByAdvice.push(0);
  daysByAdvice[advice]! += 1;
}

/** Assesses every day of a ward, patient by patient. Pure. */
export function burdenOf(plan: Plan, days: readonly WardDay[]): Burden {
  const rules = new Map<
    string,
    { set: string; rule: string; indicator: Indicator; days: number; repeats: number }
  >();
  const byIndicator = Object.fromEntries(INDICATORS.map((one) => [one, 0])) as Record<Indicator, number>;
  const byDay: { patients: number; advice: number }[] = [];
  const daysByAdvice: number[] = [];
  const sums = { advice: 0, repeats: 0, questions: 0, applies: 0, undetermined: 0 };
  let before: { readonly patient: number; readonly said: ReadonlySet<string> } = {
    patient: 0,
    said: new Set(),
  };
  for (const { patient, day, case: chart } of days) {
    const { advice, ask, counts } = assess(plan, chart, { reasons: 'none' });
    const said = new Set(advice.map(({ id }) => id));
    for (const { id, set, rule, indicator } of advice) {
      const known = rules.get(id) ?? { set, rule, indicator, days: 0, repeats: 0 };
      const again = before.patient === patient && before.said.has(id) ? 1 : 0;
      known.days += 1;
      known.repeats += again;
      rules.set(id, known);
      sums.repeats += again;
      byIndicator[indicator] += 1;
    }
    sums.advice += advice.length;
    countDay(daysByAdvice, advice.length);
    sums.questions += ask.length;
    sums.applies += counts.applies;
    sums.undetermined += counts.undetermined;
    const sofar = byDay[day - 1] ?? { patients: 0, advice: 0 };
    byDay[day - 1] = { patients: sofar.patients + 1, advice: sofar.advice + advice.length };
    before = { patient, said };
  }
  const order = plan.sets.flatMap(({ release }) =>
    release.rules.map(({ id }) => `${release.id}@${release.version}/${id}`),
  );
  return {
    patients: new Set(days.map(({ patient }) => patient)).size,
    patientDays: days.length,
    ...sums,
    byIndicator,
    rules: [...rules]
      .sort(([a, one], [b, other]) => other.days - one.days || order.indexOf(a) - order.indexOf(b))
      .map(([, counted]) => counted),
    byDay,
    daysByAdvice,
  };
}
