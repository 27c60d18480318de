import { type Case, type Evaluation, evaluate, explain, type OptionState, type Plan } from '@dwellset/core';
import type { ReadyVignette } from '../vignettes/runVignettes.ts';

/** The truths that one vignette gives, for the patient or for one option. */
export interface Observation {
  /** `rule/vignette` */
  readonly vignette: string;
  readonly truths: Uint8Array;
  readonly readings: Evaluation['readings'];
}

/** What the vignettes of a set show. */
export interface Observed {
  readonly patient: readonly Observation[];
  /** By stock list; one for each option, and for the item in the hand. */
  readonly options: ReadonlyMap<string, readonly Observation[]>;
  /** States in which an option was seen, by `kind/option`; the item in the hand is none of the options. */
  readonly states: ReadonlyMap<string, ReadonlySet<OptionState>>;
}

export function observe(
  plan: Plan,
  set: string,
  kinds: readonly string[],
  vignettes: readonly ReadyVignette[],
): Observed {
  const patient: Observation[] = [];
  const options = new Map<string, Observation[]>(kinds.map((kind) => [kind, []]));
  const states = new Map<string, Set<OptionState>>();
  for (const { rule, vignette, case: given } of vignettes) {
    const name = `${rule}/${vignette.id}`;
    const evaluation = evaluate(plan, given as Case);
    patient.push({ vignette: name, truths: evaluation.truths, readings: evaluation.readings });
    for (const kind of kinds) {
      const seen = evaluation.options(set, kind);
      options.get(kind)?.push(...seen.map(({ truths, readings }) => ({ vignette: name, truths, readings })));
    }
    if (kinds.length === 0) continue;
    const result = explain(evaluation, { reasons: 'none', asks: false, optionFacts: false }).ruleSets.find(
      ({ id }) => id === set,
    );
    for (const { of, options: judged } of result?.choices ?? []) {
      for (const { id, state } of judged) {
        const key = `${of}/${id}`;
        states.set(key, (states.get(key) ?? new Set()).add(state));
      }
    }
  }
  return { patient, options, states };
}
