import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import { TRUE, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import { Asked } from './asked.ts';
import { Beside } from './beside.ts';
import { freeze } from './prepared.ts';
import { type Part, settlers } from './settle.ts';
import { leavesOf } from './shown.ts';

/** What would settle one undetermined rule, in facts that somebody can be asked for. */
export interface RuleAsk {
  readonly asks: readonly (readonly string[])[];
  readonly decides?: readonly string[];
  /** What is asked before anything else: whether the rule is about this patient at all. */
  readonly first: RuleAsk['asks'];
}

/** What is asked of a rule, and, by what it looks for in them, of the options that it judges. */
const known = new WeakMap<PlanRule | Node, Asked<RuleAsk>>();

export class Asker {
  private readonly evaluation: Evaluation;
  private readonly patient: Beside;
  private readonly scopes = new Map<string, RuleAsk['asks']>();

  constructor(evaluation: Evaluation) {
    this.evaluation = evaluation;
    this.patient = new Beside(evaluation);
  }

  /** An undetermined rule. */
  rule(set: PlanSet, plan: PlanRule, truths: RuleTruths): RuleAsk {
    const { patient } = this;
    const asked = this.asked(plan, set, plan, plan.expect && { node: plan.expect, negated: true });
    return asked.once(patient, () => {
      const found = this.settle(asked.parts, patient);
      const gate = truths.scope === UNKNOWN ? this.ofScope(scopeOf(set, plan)) : [];
      return gate.length > 0 ? { ...found, first: gate } : found;
    });
  }

  /** An exclusion or preference that is open for some option: what of the patient would settle it. */
  options(set: PlanSet, plan: PlanRule): RuleAsk['asks'] {
    const { rule, prefers } = plan;
    const node = plan.excludes ?? (prefers && 'options' in prefers ? prefers.options : undefined);
    if (node === undefined || rule.of === undefined) return [];
    const asked = this.asked(node, set, plan, { node });
    const found = new Map<string, readonly string[]>();
    for (const option of this.evaluation.options(set.release.id, rule.of)) {
      const truth = asked.parts.reduce<number>((sofar, { node: { at } }) => sofar & option.truths[at]!, TRUE);
      if (truth !== UNKNOWN) continue;
      const { truths } = option;
      const beside = new Beside(this.evaluation, { truths, readings: { get: (id) => option.known(id) } });
      const { asks } = asked.once(beside, () => this.settle(asked.parts, beside));
      for (const ask of asks) found.set(ask.join(), ask);
    }
    return minimal([...found.values()]);
  }

  private asked(key: PlanRule | Node, set: PlanSet, plan: PlanRule, own: Part | undefined): Asked<RuleAsk> {
    const found = known.get(key);
    // A copy of a set may share its rules and have other limits.
    if (found?.set === set) return found;
    const parts: Part[] = scopeOf(set, plan);
    if (plan.when) parts.push({ node: plan.when });
    if (own) parts.push(own);
    const made = new Asked<RuleAsk>(this.evaluation.plan, set, parts);
    known.set(key, made);
    return made;
  }

  /** What is asked about a scope that the rules of a set share is worked out once. */
  private ofScope(scope: readonly Part[]): RuleAsk['asks'] {
    const key = scope.map(({ node }) => node.at).join();
    const found = this.scopes.get(key) ?? this.settle(scope, this.patient).asks;
    this.scopes.set(key, found);
    return found;
  }

  private settle(parts: readonly Part[], beside: Beside): RuleAsk {
    const { some, all } = settlers(
      beside.truths,
      leavesOf(this.evaluation.plan),
      parts,
      beside.readings,
      (fact) => beside.baseFacts(fact).length > 0,
    );
    const toBase = (facts: readonly string[]): readonly string[] => this.toBase(facts, beside);
    const asks = this.sorted(minimal(some.map(toBase).filter((facts) => facts.length > 0)));
    const found = { asks, ...(all === undefined ? {} : { decides: toBase(all) }), first: asks };
    freeze(found);
    return found;
  }

  /** The base facts behind some facts, in the order of the dictionary. */
  private toBase(facts: readonly string[], beside: Beside): readonly string[] {
    return this.inOrder([...new Set(facts.flatMap((fact) => beside.baseFacts(fact)))]);
  }

  private inOrder(facts: readonly string[]): readonly string[] {
    return [...facts].sort((a, b) => this.place(a) - this.place(b));
  }

  private sorted(sets: readonly (readonly string[])[]): readonly (readonly string[])[] {
    if (sets.length < 2) return sets;
    return [...sets].sort(
      (a, b) =>
        a.length - b.length || this.place(a[0]) - this.place(b[0]) || this.place(a[1]) - this.place(b[1]),
    );
  }

  private place(fact: string | undefined): number {
    return this.evaluation.plan.order.get(fact ?? '') ?? Infinity;
  }
}

function minimal(sets: readonly (readonly string[])[]): readonly (readonly string[])[] {
  if (sets.length < 2) return sets;
  const distinct: (readonly string[])[] = [];
  for (const set of sets) if (!distinct.some((other) => isSame(set, other))) distinct.push(set);
  return distinct.filter(
    (set) =>
      !distinct.some((other) => other.length < set.length && other.every((fact) => set.includes(fact))),
  );
}

/** The same facts, in whatever order. */
const isSame = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((fact) => b.includes(fact));

function scopeOf(set: PlanSet, { rule, scope }: PlanRule): Part[] {
  const parts: Part[] = [];
  if (set.population && !rule.anyPopulation && !rule.locked) parts.push({ node: set.population });
  if (set.gate) parts.push({ node: set.gate });
  if (scope) parts.push({ node: scope });
  return parts;
}
