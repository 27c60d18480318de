import {
  evaluate,
  type Fact,
  kindOf,
  type Node,
  type Plan,
  type PlanSet,
  ruleTruths,
  TRUE,
  type Truth,
  UNKNOWN,
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

/** What an option settles by itself, whoever the patient is. */
function attributesOf(plan: Plan, set: PlanSet, kind: string, option: string): Fixed {
  const nobody = { asOf: '2000-01-01T00:00:00Z', timeZone: 'UTC', facts: {} };
  const found = evaluate(plan, nobody)
    .options(set.release.id, kind)
    .find(({ id }) => id === option);
  return new Map(
    plan.option.leaves.flatMap(({ at, fact }): [number, Truth][] => {
      const truth = found?.truths[at] as Truth | undefined;
      if (truth === undefined || !isTimeless(plan, fact)) return [];
      // What is settled while nothing is known of the patient stays so; what only the label could say stays open.
      return truth !== UNKNOWN || isOfLabel(plan, fact) ? [[at, truth]] : [];
    }),
  );
}

/** What follows from a fact: itself, and all that it is computed from. */
function chain(plan: Plan, id: string): Fact[] {
  const fact = plan.facts.get(id);
  if (fact === undefined) return [];
  const inputs = fact.from === undefined ? [] : kindOf(fact.from).facts(fact.from);
  return [fact, ...inputs.flatMap((input) => chain(plan, input))];
}

/** Another moment makes no difference to it. */
const isTimeless = (plan: Plan, id: string): boolean =>
  chain(plan, id).every(({ staleAfter, from }) => staleAfter === undefined && !readsMoment(from));

const readsMoment = (from: Fact['from']): boolean => JSON.stringify(from ?? null).includes('"asOf"');

/** Read from the label, or computed from nothing else. */
const isOfLabel = (plan: Plan, id: string): boolean =>
  chain(plan, id).every((fact) => fact.id.startsWith('option.'));
