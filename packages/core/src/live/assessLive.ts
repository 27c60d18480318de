import { evaluate } from '../evaluate/evaluate.ts';
import type { Assessment } from '../explain/assessment.ts';
import { type ExplainOptions, explain } from '../explain/explain.ts';
import type { Case, CaseValue } from '../facts/case.ts';
import type { Plan } from '../plan/plan.ts';
import { needed } from './needed.ts';
import { ask, type CancelSignal, type FactProvider, type FetchFailure } from './provider.ts';

export interface LiveOptions<S extends CancelSignal = CancelSignal> extends ExplainOptions {
  /** Ends the whole run: what is still needed is then absent as `error`. */
  readonly signal?: S;
  /** The signal of one fetch, for instance `AbortSignal.timeout(500)`: the core has no clock. */
  readonly limit?: (provider: FactProvider<S>) => S;
}

/** One fetch, in the order in which they were made. */
export interface Fetched {
  /** Place of the provider in the list that was given. */
  readonly provider: number;
  readonly cost: number;
  /** Those of its facts that could still change something. */
  readonly for: readonly string[];
  /** Why it brought nothing. */
  readonly failure?: FetchFailure;
}

/** A provider that was not asked: its facts could change nothing any more, or no rule reads them. */
export interface Spared {
  readonly provider: number;
  readonly cost: number;
  readonly because: 'not-needed' | 'known' | 'not-read';
}

export interface LiveAssessment {
  readonly assessment: Assessment;
  /** The case as it was assessed in the end. */
  readonly case: Case;
  readonly fetched: readonly Fetched[];
  readonly spared: readonly Spared[];
}

/**
 * Assesses a case whose facts are fetched as they are needed, the cheapest that can still change an outcome first.
 * Outcomes, conclusions, compliance, options and advice are those of the case with everything fetched. A fetch that
 * fails ends as unknown (`error`); what was never needed is absent as `not-needed`. What the case states is kept.
 */
export async function assessLive<S extends CancelSignal = CancelSignal>(
  plan: Plan,
  start: Case,
  providers: readonly FactProvider<S>[],
  options: LiveOptions<S> = {},
): Promise<LiveAssessment> {
  const read = new Set(plan.patientFacts.facts.map(({ id }) => id));
  const known = new Map<string, CaseValue>(Object.entries(start.facts));
  const answered = new Set(known.keys());
  const left = new Set(providers.keys());
  const fetched: Fetched[] = [];
  const open = (): Set<string> =>
    new Set(
      [...left].flatMap((at) => providers[at]!.facts.filter((id) => read.has(id) && !answered.has(id))),
    );
  const caseWith = (absent: ReadonlySet<string>): Case => ({
    ...start,
    facts: Object.fromEntries([
      ...known,
      ...[...absent].map((id) => [id, { absent: 'not-needed' }] as const),
    ]),
  });

  for (;;) {
    const toFetch = open();
    const patient = caseWith(toFetch);
    const evaluation = evaluate(plan, patient);
    const wanted = toFetch.size === 0 ? toFetch : needed(evaluation, toFetch);
    const next = cheapest(providers, left, wanted);
    if (next === undefined) {
      const spared = [...left].map((at) => spare(at, providers[at]!, read, answered));
      return { assessment: explain(evaluation, options), case: patient, fetched, spared };
    }
    const provider = providers[next]!;
    left.delete(next);
    const isOver = options.signal?.aborted === true;
    const result = await ask(provider, isOver ? undefined : options.limit?.(provider), options.signal);
    const reasons = provider.facts.filter((id) => wanted.has(id));
    const failed = typeof result === 'string';
    fetched.push({
      provider: next,
      cost: provider.cost,
      for: reasons,
      ...(failed ? { failure: result } : {}),
    });
    for (const id of provider.facts) {
      if (!read.has(id) || answered.has(id)) continue;
      if (failed) {
        // Another provider of the same fact may still bring it.
        if ([...left].some((at) => providers[at]!.facts.includes(id))) continue;
        known.set(id, { absent: 'error' });
      } else if (Object.hasOwn(result, id) && result[id] !== undefined) known.set(id, result[id]);
      answered.add(id);
    }
  }
}

/** The cheapest provider of a wanted fact; of equally cheap ones the one that answers most. */
function cheapest(
  providers: readonly Pick<FactProvider, 'facts' | 'cost'>[],
  left: ReadonlySet<number>,
  wanted: ReadonlySet<string>,
): number | undefined {
  const useful = [...left].flatMap((at) => {
    const { facts, cost } = providers[at]!;
    const count = facts.filter((id) => wanted.has(id)).length;
    return count > 0 ? [{ at, cost, count }] : [];
  });
  return useful.sort((a, b) => a.cost - b.cost || b.count - a.count || a.at - b.at)[0]?.at;
}

function spare(
  provider: number,
  { facts, cost }: Pick<FactProvider, 'facts' | 'cost'>,
  read: ReadonlySet<string>,
  answered: ReadonlySet<string>,
): Spared {
  const own = facts.filter((id) => read.has(id));
  const because =
    own.length === 0 ? 'not-read' : own.every((id) => answered.has(id)) ? 'known' : 'not-needed';
  return { provider, cost, because };
}
