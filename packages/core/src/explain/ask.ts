import { Concluded } from '../evaluate/conclusion.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import type { RuleTruths } from '../evaluate/outcomes.ts';
import { type ConclusionRead, type Inputs, interval, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import { kindOf } from '../facts/derivations/kinds.ts';
import type { Reading } from '../facts/reading.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { PlanRule, PlanSet } from '../plan/plan.ts';
import type { Cause, Question } from './assessment.ts';
import { type Part, Trial } from './settle.ts';
import { leavesOf } from './shown.ts';

/** What nobody can answer is never asked again. */
const CANNOT_BE_KNOWN: ReadonlySet<Cause> = new Set(['asked-unknown', 'asked-declined', 'not-applicable']);

/** What would settle one undetermined rule, in facts that somebody can be asked for. */
export interface RuleAsk {
  readonly asks: readonly (readonly string[])[];
  readonly decides?: readonly string[];
}

export class Asker {
  private readonly evaluation: Evaluation;
  private readonly inputs: Inputs;
  private readonly trial: Trial;
  private readonly scopes = new Map<string, RuleAsk['asks']>();
  /** Base facts behind a fact, for each set of readings they were looked for in. */
  private readonly based = new WeakMap<Inputs, Map<string, readonly string[]>>();

  constructor(evaluation: Evaluation) {
    this.evaluation = evaluation;
    this.trial = new Trial(evaluation.truths, leavesOf(evaluation.plan));
    const { optionFacts } = evaluation.plan;
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
    return set ? new Concluded(set, this.evaluation.truths) : NOTHING_CONCLUDED;
  }

  /** An undetermined rule. Its questions begin with whether it is about this patient at all. */
  rule(set: PlanSet, plan: PlanRule, truths: RuleTruths): RuleAsk & { readonly first: RuleAsk['asks'] } {
    const scope = this.scopeParts(set, plan);
    const parts: Part[] = [...scope];
    if (plan.when) parts.push({ node: plan.when });
    if (plan.expect) parts.push({ node: plan.expect, negated: true });
    const { asks, decides } = this.settle(parts, this.trial, this.evaluation.readings, this.inputs);
    const gate = truths.scope === UNKNOWN ? this.ofScope(scope) : [];
    const first = gate.length > 0 ? gate : asks;
    return decides === undefined ? { asks, first } : { asks, decides, first };
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
      const trial = new Trial(option.truths, leavesOf(this.evaluation.plan));
      for (const ask of this.settle(parts, trial, option.readings, inputs).asks) found.set(ask.join(), ask);
    }
    return { asks: minimal([...found.values()]) };
  }

  private scopeParts(set: PlanSet, { rule, scope }: PlanRule): Part[] {
    const parts: Part[] = [];
    if (set.population && !rule.anyPopulation && !rule.locked) parts.push({ node: set.population });
    if (set.gate) parts.push({ node: set.gate });
    if (scope) parts.push({ node: scope });
    return parts;
  }

  /** What is asked about a scope that the rules of a set share is worked out once. */
  private ofScope(scope: readonly Part[]): RuleAsk['asks'] {
    const key = scope.map(({ node }) => node.at).join();
    const known =
      this.scopes.get(key) ?? this.settle(scope, this.trial, this.evaluation.readings, this.inputs).asks;
    this.scopes.set(key, known);
    return known;
  }

  private settle(
    parts: readonly Part[],
    trial: Trial,
    readings: ReadonlyMap<string, Reading>,
    inputs: Inputs,
  ): RuleAsk {
    const found = trial.settlers(parts, readings, (fact) => this.baseFacts(fact, inputs).length > 0);
    const toBase = (facts: readonly string[]): readonly string[] => this.toBase(facts, inputs);
    const asks = this.sorted(minimal(found.some.map(toBase).filter((facts) => facts.length > 0)));
    return found.all === undefined ? { asks } : { asks, decides: toBase(found.all) };
  }

  /** The base facts behind some facts, in the order of the dictionary. */
  private toBase(facts: readonly string[], inputs: Inputs): readonly string[] {
    if (facts.length === 1) {
      const alone = this.baseFacts(facts[0]!, inputs);
      return alone.length > 1 ? this.inOrder(alone) : alone;
    }
    const all = new Set<string>();
    for (const fact of facts) for (const base of this.baseFacts(fact, inputs)) all.add(base);
    return this.inOrder([...all]);
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

/** A rule that waits, and what it waits for. */
export interface Waiting {
  readonly rule: string;
  readonly asks: RuleAsk['asks'];
  /** Locked, or critical: its question comes first. */
  readonly isStop: boolean;
}

/**
 * The questions of a whole assessment: facts that hold up a locked or critical rule first, then by how many
 * undetermined rules the fact alone could settle, then in dictionary order.
 */
export function questions(evaluation: Evaluation, waiting: readonly Waiting[]): Question[] {
  const { plan, readings } = evaluation;
  const found = new Map<string, { holdsUpStop: boolean; settlesAlone: number; rules: string[] }>();
  for (const { rule, isStop, asks } of waiting) {
    for (const set of asks) {
      for (const fact of set) {
        let own = found.get(fact);
        if (own === undefined) {
          own = { holdsUpStop: false, settlesAlone: 0, rules: [] };
          found.set(fact, own);
        }
        if (set.length === 1) own.settlesAlone += 1;
        // Several sets of one rule may name it.
        if (own.rules.at(-1) === rule) continue;
        own.holdsUpStop ||= isStop;
        own.rules.push(rule);
      }
    }
  }
  const asked: Question[] = [];
  for (const [fact, { holdsUpStop, settlesAlone, rules }] of found) {
    const question = plan.facts.get(fact)?.question ?? fact;
    const cause = readings.get(fact)?.cause ?? 'not-supplied';
    asked.push({ fact, question, cause, holdsUpStop, settlesAlone, partOf: rules.length, rules });
  }
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
