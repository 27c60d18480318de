import { concludeSet } from '../evaluate/conclusion.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import { type ConclusionRead, type Inputs, interval, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import { kindOf } from '../facts/derivations/kinds.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Leaf, Plan, PlanRule, PlanSet } from '../plan/plan.ts';
import type { Cause, Question } from './assessment.ts';
import type { Read } from './reasons.ts';
import { type Part, settlers } from './settle.ts';

/** What nobody can answer is never asked again. */
const CANNOT_BE_KNOWN: ReadonlySet<Cause> = new Set(['asked-unknown', 'asked-declined', 'not-applicable']);

/** What would settle one undetermined rule, in facts that somebody can be asked for. */
export interface RuleAsk {
  readonly asks: readonly (readonly string[])[];
  readonly decides?: readonly string[];
}

/** The leaves of a plan by their places, worked out once a plan. */
function leavesOf(plan: Plan): ReadonlyMap<number, Leaf> {
  const known = leavesByPlan.get(plan);
  if (known) return known;
  const found = new Map([...plan.patient.leaves, ...plan.option.leaves].map((leaf) => [leaf.at, leaf]));
  leavesByPlan.set(plan, found);
  return found;
}

const leavesByPlan = new WeakMap<Plan, ReadonlyMap<number, Leaf>>();

export class Asker {
  private readonly evaluation: Evaluation;
  private readonly leafAt: ReadonlyMap<number, Leaf>;
  private readonly inputs: Inputs;
  private readonly scopes = new Map<string, RuleAsk['asks']>();
  /** Base facts behind a fact, for each set of readings they were looked for in. */
  private readonly based = new WeakMap<Inputs, Map<string, readonly string[]>>();

  constructor(evaluation: Evaluation) {
    this.evaluation = evaluation;
    const { optionFacts } = evaluation.plan;
    this.leafAt = leavesOf(evaluation.plan);
    this.inputs = {
      reading: (id) => evaluation.readings.get(id)!,
      parameter: (id) => optionFacts.parameters.get(id)!,
      table: (id) => optionFacts.tables.get(id)!,
      codes: (list) => optionFacts.codes.get(list)!,
      conclusion: (set) => this.conclusion(set),
      asOf: interval(evaluation.asOf, evaluation.asOf),
      zone: evaluation.zone,
    };
  }

  /** Base facts that an answer about `fact` has to come from; none where nobody can give it. */
  baseFacts(fact: string, inputs: Inputs = this.inputs): readonly string[] {
    let known = this.based.get(inputs);
    if (!known) {
      known = new Map();
      this.based.set(inputs, known);
    }
    const found = known.get(fact) ?? this.findBaseFacts(fact, inputs);
    known.set(fact, found);
    return found;
  }

  private findBaseFacts(fact: string, inputs: Inputs): readonly string[] {
    if (fact.startsWith('option.')) return [];
    const reading = inputs.reading(fact);
    // An exact value may still leave open whether anybody recorded it.
    if (reading.cause === undefined && reading.recorded !== UNKNOWN) return [];
    if (reading.inputs === undefined || reading.fact.from === undefined) {
      return reading.cause !== undefined && CANNOT_BE_KNOWN.has(reading.cause) ? [] : [fact];
    }
    const asked = kindOf(reading.fact.from).asks(reading.fact.from, inputs);
    const base = asked.map((id) => this.baseFacts(id, inputs));
    // Each of the facts that a conclusion waits for may settle it alone.
    if ('conclusion' in reading.fact.from) return [...new Set(base.flat())];
    // One input that nobody can answer leaves the derived fact open whatever the others are.
    return base.some((ids) => ids.length === 0) ? [] : [...new Set(base.flat())];
  }

  private conclusion(id: string): ConclusionRead {
    const set = this.evaluation.plan.sets.find(({ release }) => release.id === id);
    return set ? concludeSet(set, this.evaluation.truths) : NOTHING_CONCLUDED;
  }

  /** An undetermined rule. Its questions begin with whether it is about this patient at all. */
  rule(set: PlanSet, plan: PlanRule, truths: RuleTruths): RuleAsk & { readonly first: RuleAsk['asks'] } {
    const read: Read = { truths: this.evaluation.truths, readings: this.evaluation.readings };
    const scope = this.scopeParts(set, plan);
    const whole = this.settle(
      [
        ...scope,
        ...(plan.when ? [{ node: plan.when }] : []),
        ...(plan.expect ? [{ node: plan.expect, negated: true }] : []),
      ],
      read,
      this.inputs,
    );
    const gate = truths.scope === UNKNOWN ? this.ofScope(scope, read) : [];
    return { ...whole, first: gate.length > 0 ? gate : whole.asks };
  }

  /** An exclusion or preference that is open for some option: what of the patient would settle it. */
  options(set: PlanSet, plan: PlanRule): RuleAsk {
    const { rule } = plan;
    const own =
      plan.excludes ?? (plan.prefers && 'options' in plan.prefers ? plan.prefers.options : undefined);
    if (own === undefined || rule.of === undefined) return { asks: [] };
    const parts = [...this.scopeParts(set, plan), ...(plan.when ? [{ node: plan.when }] : []), { node: own }];
    const found = new Map<string, readonly string[]>();
    for (const option of this.evaluation.options(set.release.id, rule.of)) {
      const truth = parts.reduce<number>((sofar, { node }) => sofar & option.truths[node.at]!, TRUE);
      if (truth !== UNKNOWN) continue;
      const inputs: Inputs = { ...this.inputs, reading: (id) => option.readings.get(id)! };
      for (const ask of this.settle(parts, option, inputs).asks) found.set(ask.join(), ask);
    }
    return { asks: minimal([...found.values()]) };
  }

  private scopeParts(set: PlanSet, { rule, scope }: PlanRule): Part[] {
    const population = rule.anyPopulation || rule.locked ? undefined : set.population;
    return [population, set.gate, scope].flatMap((node) => (node ? [{ node }] : []));
  }

  /** What is asked about a scope that the rules of a set share is worked out once. */
  private ofScope(scope: readonly Part[], read: Read): RuleAsk['asks'] {
    const key = scope.map(({ node }) => node.at).join();
    const known = this.scopes.get(key) ?? this.settle(scope, read, this.inputs).asks;
    this.scopes.set(key, known);
    return known;
  }

  private settle(parts: readonly Part[], read: Read, inputs: Inputs): RuleAsk {
    const found = settlers(parts, read, this.leafAt, (fact) => this.baseFacts(fact, inputs).length > 0);
    const toBase = (facts: readonly string[]): string[] =>
      this.inOrder([...new Set(facts.flatMap((fact) => this.baseFacts(fact, inputs)))]);
    return {
      asks: this.sorted(minimal(found.some.map(toBase).filter((facts) => facts.length > 0))),
      ...(found.all ? { decides: toBase(found.all) } : {}),
    };
  }

  private inOrder(facts: readonly string[]): string[] {
    const place = (fact: string): number => this.evaluation.plan.order.get(fact) ?? Infinity;
    return [...facts].sort((a, b) => place(a) - place(b));
  }

  private sorted(sets: readonly (readonly string[])[]): (readonly string[])[] {
    const place = (fact: string | undefined): number =>
      this.evaluation.plan.order.get(fact ?? '') ?? Infinity;
    return [...sets].sort(
      (a, b) => a.length - b.length || place(a[0]) - place(b[0]) || place(a[1]) - place(b[1]),
    );
  }
}

const minimal = (sets: readonly (readonly string[])[]): (readonly string[])[] => {
  const distinct = [...new Map(sets.map((set) => [[...set].sort().join(), set])).values()];
  return distinct.filter(
    (set) =>
      !distinct.some((other) => other.length < set.length && other.every((fact) => set.includes(fact))),
  );
};

/** A rule that waits, and what it waits for. */
export interface Waiting extends RuleAsk {
  readonly rule: string;
  /** Locked, or critical: its question comes first. */
  readonly isStop: boolean;
}

/**
 * The questions of a whole assessment: facts that hold up a locked or critical rule first, then by how many
 * undetermined rules the fact alone could settle, then in dictionary order.
 */
export function questions(evaluation: Evaluation, waiting: readonly Waiting[]): Question[] {
  const { plan, readings } = evaluation;
  const facts = new Set(waiting.flatMap(({ asks }) => asks.flat()));
  const asked = [...facts].map((fact): Question => {
    const own = waiting.filter(({ asks }) => asks.some((set) => set.includes(fact)));
    const reading = readings.get(fact);
    return {
      fact,
      question: plan.facts.get(fact)?.question ?? fact,
      cause: reading?.cause ?? 'not-supplied',
      holdsUpStop: own.some(({ isStop }) => isStop),
      settlesAlone: own.filter(({ asks }) => asks.some((set) => set.length === 1 && set[0] === fact)).length,
      partOf: own.length,
      rules: own.map(({ rule }) => rule),
    };
  });
  const place = (fact: string): number => plan.order.get(fact) ?? Infinity;
  return asked.sort(
    (a, b) =>
      Number(b.holdsUpStop) - Number(a.holdsUpStop) ||
      b.settlesAlone - a.settlesAlone ||
      place(a.fact) - place(b.fact),
  );
}

/** Whether every fact behind the open leaves of a check is known to have nothing in the record. */
export function openRecordsEmpty(set: PlanSet, plan: PlanRule, evaluation: Evaluation): boolean {
  const { truths, readings } = evaluation;
  const facts = new Set<string>();
  const visit = (node: NonNullable<PlanRule['scope']>): void => {
    if (truths[node.at] !== UNKNOWN) return;
    if (node.kind === 'fact') facts.add(node.fact);
    else if (node.kind !== 'parameter') node.of.forEach(visit);
  };
  const population = plan.rule.anyPopulation || plan.rule.locked ? undefined : set.population;
  for (const node of [population, set.gate, plan.scope, plan.expect]) if (node) visit(node);
  const recordedOf = (fact: string): Truth[] => {
    const { inputs, recorded, cause } = readings.get(fact)!;
    // An exact value may follow from facts nobody supplied: nothing then says that the record is empty.
    if (cause === undefined) return recorded === UNKNOWN ? [recorded] : [];
    return inputs === undefined ? [recorded] : inputs.flatMap(recordedOf);
  };
  const found = [...facts].flatMap(recordedOf);
  return found.length > 0 && found.every((recorded) => recorded === FALSE);
}
