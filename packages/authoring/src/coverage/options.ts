import {
  evaluate,
  kindOf,
  type Node,
  type Plan,
  type PlanSet,
  ruleTruths,
  TRUE,
  type Truth,
} from '@dwellset/core';
import { nodesOfRule } from './decisions.ts';
import { goal } from './goals.ts';
import type { Observed } from './observe.ts';
import { type Anchor, below, placeAt } from './places.ts';
import { type Fixed, neverHolds } from './prove.ts';
import type { OptionCoverage, Proof } from './shape.ts';
import { reader } from './truths.ts';

/** Each option of the stock lists, kept by one vignette and ruled out by another. */
export function coverOptions(
  plan: Plan,
  set: PlanSet,
  observed: Observed,
  anchorOf: (kind: string) => Anchor,
): OptionCoverage[] {
  return Object.entries(set.stock).flatMap(([kind, options]) =>
    options.map(({ id }, index): OptionCoverage => {
      const states = observed.states.get(`${kind}/${id}`);
      return {
        of: kind,
        option: id,
        place: placeAt(below(anchorOf(kind), 'options', index)),
        goals: [
          goal('kept', states?.has('open') ?? false, () => undefined),
          goal('ruled-out', states?.has('ruled-out') ?? false, () => neverRuledOut(plan, set, kind, id)),
        ],
      };
    }),
  );
}

/** That no rule can exclude an option with these attributes, whatever the patient. */
function neverRuledOut(plan: Plan, set: PlanSet, kind: string, option: string): Proof | undefined {
  const fixed = attributesOf(plan, set, kind, option);
  const facts = new Set<string>();
  let combinations = 0;
  for (const rule of set.rules) {
    const { excludes, switchedOff } = rule;
    if (rule.rule.of !== kind || excludes === undefined || switchedOff) continue;
    const nodes: readonly Node[] = [...nodesOfRule(set, rule), excludes];
    const proof = neverHolds(
      plan,
      nodes,
      (truths) => {
        const truthOf = reader(truths);
        return ruleTruths(set, rule, truthOf).outcome === 'applies' && truthOf(excludes) === TRUE;
      },
      fixed,
    );
    if (proof === undefined) return undefined;
    combinations += proof.combinations;
    for (const fact of proof.facts) facts.add(fact);
  }
  return { combinations, facts: [...facts] };
}

/** What the label of an option settles, whoever the patient is. */
function attributesOf(plan: Plan, set: PlanSet, kind: string, option: string): Fixed {
  const nobody = { asOf: '2000-01-01T00:00:00Z', timeZone: 'UTC', facts: {} };
  const found = evaluate(plan, nobody)
    .options(set.release.id, kind)
    .find(({ id }) => id === option);
  return new Map(
    plan.option.leaves.flatMap(({ at, fact }): [number, Truth][] => {
      return found && isOfLabel(plan, fact) ? [[at, found.truths[at] as Truth]] : [];
    }),
  );
}

/** Read from the label, or computed from what is; what else is computed, or goes out of date, may differ by patient. */
function isOfLabel(plan: Plan, id: string): boolean {
  const fact = plan.facts.get(id);
  if (!id.startsWith('option.') || fact === undefined || fact.staleAfter !== undefined) return false;
  const { from } = fact;
  return (
    from === undefined ||
    kindOf(from)
      .facts(from)
      .every((input) => isOfLabel(plan, input))
  );
}
