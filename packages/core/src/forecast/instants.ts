import type { Case } from '../facts/case.ts';
import {
  type ConclusionRead,
  type Inputs,
  interval,
  NOTHING_CONCLUDED,
  type WatchInputs,
} from '../facts/derivations/kind.ts';
import { kindOf } from '../facts/derivations/kinds.ts';
import { instantOrDay } from '../facts/moment.ts';
import { readFacts } from '../facts/readFacts.ts';
import { parseDay, parseDuration, startOfDay } from '../facts/time.ts';
import type { LeafTest } from '../plan/leaf.ts';
import type { Plan } from '../plan/plan.ts';

/** Only limits and instants matter here; every leaf that a conclusion rests on is watched for itself. */
const OPEN = (): ConclusionRead => NOTHING_CONCLUDED;

/**
 * The instants after `from`, up to `to`, at which anything may change: a limit crossed, a midnight, a fact going
 * stale, an answer to advice running out. Between two of them nothing does.
 */
export function instantsToWatch(plan: Plan, patient: Case, from: number, to: number): number[] {
  // Read at the end of the window: a day without a time then has its full length, and nothing has gone stale.
  const { readings, moment } = readFacts(plan.patientFacts, plan.blank.row, patient, OPEN, {
    asOf: to,
    ignoreStale: true,
  });
  const inputs: Inputs = {
    reading: (id) => readings.get(id)!,
    parameter: (id) => plan.patientFacts.parameters.get(id)!,
    table: (id) => plan.patientFacts.tables.get(id)!,
    codes: (list) => plan.patientFacts.codes.get(list)!,
    conclusion: () => OPEN(),
    asOf: interval(to, to),
    zone: moment.zone,
  };
  const watch: WatchInputs = { ...inputs, from, to };
  const found: number[] = [];
  const follow = (fact: string, cuts: readonly number[]): void => {
    const definition = readings.get(fact)?.fact;
    if (definition?.from) {
      // Past a limit a value is impossible, and what it settled is open again.
      const all = [...cuts, ...(definition.limits ?? [])];
      const { instants, pass } = kindOf(definition.from).watch(definition.from, definition, all, watch);
      found.push(...instants);
      for (const [input, inputCuts] of pass) follow(input, inputCuts);
    } else if (definition?.type === 'date-time') {
      found.push(...cuts);
    }
  };
  for (const leaf of [...plan.patient.leaves, ...plan.option.leaves]) {
    if (readings.has(leaf.fact)) follow(leaf.fact, cutsOf(leaf.test));
    else followOption(plan, leaf.fact, cutsOf(leaf.test), follow);
  }
  for (const { fact, bounds } of readings.values()) {
    if (fact.type === 'date-time' && bounds.kind === 'interval') found.push(bounds.low, bounds.high);
  }
  found.push(...endsOfValidity(plan, patient, moment.zone));
  // A limit may be crossed at an instant or just after it, and rounding may put it between two milliseconds.
  const instants = found.flatMap((instant) => [
    Math.floor(instant),
    Math.ceil(instant),
    Math.ceil(instant) + 1,
  ]);
  return [...new Set(instants)].filter((instant) => instant > from && instant <= to).sort((a, b) => a - b);
}

const cutsOf = (test: LeafTest): readonly number[] => (test.kind === 'compare' ? [test.to] : []);

/** Facts per option have no reading of the patient's; the patient facts they are derived from are watched. */
function followOption(
  plan: Plan,
  id: string,
  cuts: readonly number[],
  follow: (fact: string, cuts: readonly number[]) => void,
): void {
  const fact = plan.facts.get(id);
  if (!fact?.from) return;
  for (const input of kindOf(fact.from).facts(fact.from)) {
    if (plan.optionFacts.facts.some((own) => own.id === input)) followOption(plan, input, cuts, follow);
    else follow(input, cuts);
  }
}

/** When facts are observed and go stale, when answers to advice run out, where a rule set's period starts or ends. */
function endsOfValidity(plan: Plan, patient: Case, zone: string): number[] {
  const found: (number | undefined)[] = [];
  const at = (text: unknown): number | undefined =>
    typeof text === 'string' ? instantOrDay(text, zone) : undefined;
  const facts: Readonly<Record<string, unknown>> = patient.facts ?? {};
  for (const fact of plan.patientFacts.facts) {
    if (!Object.hasOwn(facts, fact.id)) continue;
    const stated = facts[fact.id] as { readonly at?: unknown; readonly value?: unknown } | null;
    // An instant still to come counts as in conflict until it has come.
    if (fact.type === 'date-time') found.push(at(stated?.value ?? stated));
    const observed = at(stated?.at) ?? at(patient.recordedAt);
    const age = fact.staleAfter === undefined ? undefined : parseDuration(fact.staleAfter);
    found.push(observed, observed !== undefined && age !== undefined ? observed + age : undefined);
  }
  const responses: readonly unknown[] = Array.isArray(patient.responses) ? patient.responses : [];
  for (const response of responses) found.push(at((response as { until?: unknown } | null)?.until));
  for (const { release } of plan.sets) {
    const { start, end } = release.effectivePeriod ?? {};
    const [first, last] = [parseDay(start ?? ''), parseDay(end ?? '')];
    found.push(first && startOfDay(first, zone), last && startOfDay(last + 1, zone));
  }
  return found.filter((instant) => instant !== undefined);
}
