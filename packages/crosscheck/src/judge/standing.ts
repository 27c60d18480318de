import type { Outcome, Release, Rule } from '@dwellset/core';
import { bothOf, FAILS, fails, HOLDS, opposite, type Pair } from '../bounds/pair.ts';
import type { Answers } from '../engine/groupEngine.ts';

/** How one rule stands for one patient, from the second engine's answers alone. */
export interface Standing {
  readonly rule: Rule;
  /** Population, gate and scope together, as far as they bind this rule. */
  readonly inScope: Pair;
  /** `when` holds, or `expect` does not. */
  readonly speaks: Pair;
  readonly applies: Pair;
  readonly outcome: Outcome;
}

export function standings(
  release: Release,
  answers: Answers,
  switchedOff: ReadonlySet<string>,
): readonly Standing[] {
  return release.rules.map((rule) => standing(rule, answers, switchedOff.has(rule.id)));
}

function standing(rule: Rule, answers: Answers, isOff: boolean): Standing {
  const inScope = scopeOf(rule, answers);
  const expected = answers.of(rule.id, 'expect');
  const speaks = expected ? opposite(expected) : (answers.of(rule.id, 'when') ?? HOLDS);
  const applies = isOff ? FAILS : bothOf(inScope, speaks);
  return { rule, inScope, speaks, applies, outcome: isOff ? 'switched-off' : outcome(inScope, speaks) };
}

/** Whether the whole set is about this patient: population and stage of care. */
export const aboutPatient = (answers: Answers): Pair =>
  bothOf(answers.of(undefined, 'population') ?? HOLDS, answers.of(undefined, 'gate') ?? HOLDS);

function scopeOf(rule: Rule, answers: Answers): Pair {
  const population = answers.of(undefined, 'population') ?? HOLDS;
  const gate = answers.of(undefined, 'gate') ?? HOLDS;
  const scope = answers.of(rule.id, 'scope') ?? HOLDS;
  if (rule.anyPopulation) return bothOf(gate, scope);
  if (fails(population)) return FAILS;
  // A hard stop does not wait for the population to be established.
  return rule.locked ? bothOf(gate, scope) : bothOf(population, gate, scope);
}

function outcome(inScope: Pair, speaks: Pair): Outcome {
  if (fails(inScope)) return 'not-in-scope';
  if (fails(speaks)) return 'does-not-apply';
  return inScope.certain && speaks.certain ? 'applies' : 'undetermined';
}
