import type { Outcome } from '../explain/assessment.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { Leaf, Node, Plan, PlanRule, PlanSet } from '../plan/plan.ts';
import {
  allRows,
  always,
  both,
  count,
  either,
  intersection,
  isIn,
  negated,
  noPlanes,
  type Planes,
  union,
  without,
} from './planes.ts';
import type { CaseColumns } from './readCases.ts';

/** One rule over many cases: a bit a case in exactly one of the four, or in none where it is switched off. */
export interface RuleOverCases {
  readonly scope: Planes;
  readonly when: Planes;
  readonly applies: Uint32Array;
  readonly doesNotApply: Uint32Array;
  readonly undetermined: Uint32Array;
  readonly notInScope: Uint32Array;
  readonly switchedOff: boolean;
}

/** Judges many cases at once. Rules are looked at when asked for, so that one edited rule costs one rule. */
export class CasesJudged {
  readonly columns: CaseColumns;
  readonly plan: Plan;
  private readonly nodes = new Map<number, Planes>();
  private readonly rules = new Map<string, RuleOverCases>();
  private readonly leaves: ReadonlyMap<number, Leaf>;
  private readonly whole: Uint32Array;

  constructor(plan: Plan, columns: CaseColumns) {
    this.plan = plan;
    this.columns = columns;
    this.leaves = new Map(plan.patient.leaves.map((leaf) => [leaf.at, leaf]));
    this.whole = allRows(columns.rows);
    for (const [at, truth] of plan.constants) this.nodes.set(at, constant(truth, columns.rows));
  }

  set(id: string): PlanSet {
    const found = this.plan.sets.find(({ release }) => release.id === id);
    if (!found) throw new RangeError(`no rule set ${id}`);
    return found;
  }

  rule(set: string, rule: string): RuleOverCases {
    const key = `${set}/${rule}`;
    const own = this.set(set);
    const plan = own.rules.find((one) => one.rule.id === rule);
    if (!plan) throw new RangeError(`no rule ${key}`);
    const known = this.rules.get(key) ?? this.judge(own, plan);
    this.rules.set(key, known);
    return known;
  }

  outcome(set: string, rule: string, row: number): Outcome {
    const { switchedOff, applies, doesNotApply, undetermined } = this.rule(set, rule);
    if (isIn(this.columns.outOfPeriod(set), row)) return 'not-in-scope';
    if (switchedOff) return 'switched-off';
    if (isIn(applies, row)) return 'applies';
    if (isIn(doesNotApply, row)) return 'does-not-apply';
    return isIn(undetermined, row) ? 'undetermined' : 'not-in-scope';
  }

  /** How many cases a rule applies to, and so on. */
  counts(set: string, rule: string): Readonly<Record<Outcome, number>> {
    const found = this.rule(set, rule);
    const bits = (of: Uint32Array): number => (found.switchedOff ? 0 : count(of));
    const closed = this.columns.outOfPeriod(set);
    return {
      applies: bits(found.applies),
      'does-not-apply': bits(found.doesNotApply),
      undetermined: bits(found.undetermined),
      'not-in-scope': found.switchedOff ? count(closed) : count(found.notInScope),
      'switched-off': found.switchedOff ? count(without(this.whole, closed)) : 0,
    };
  }

  /** The truth of a condition over the patient, for every case. */
  truthOf(node: Node | undefined): Planes {
    if (node === undefined) return always(this.columns.rows);
    const known = this.nodes.get(node.at) ?? this.workOut(node);
    this.nodes.set(node.at, known);
    return known;
  }

  private workOut(node: Node): Planes {
    switch (node.kind) {
      case 'fact':
        return this.columns.leaf(this.leaves.get(node.at)!);
      case 'parameter':
        return noPlanes(this.columns.rows);
      case 'named':
        return this.truthOf(node.of[0]);
      case 'not':
        return negated(this.truthOf(node.of[0]), this.columns.rows);
      case 'all':
        return node.of.map((inner) => this.truthOf(inner)).reduce(both);
      case 'any':
        return node.of.map((inner) => this.truthOf(inner)).reduce(either);
    }
  }

  /** The same reading of scope as for one case: a locked rule does not wait for the population. */
  private judge(set: PlanSet, plan: PlanRule): RuleOverCases {
    const open = without(this.whole, this.columns.outOfPeriod(set.release.id));
    const own = both(this.truthOf(set.gate), this.truthOf(plan.scope));
    const population = this.truthOf(set.population);
    const limit = plan.rule.locked
      ? { certain: population.possible, possible: population.possible }
      : population;
    const limited = plan.rule.anyPopulation ? own : both(own, limit);
    const scope = {
      certain: intersection(limited.certain, open),
      possible: intersection(limited.possible, open),
    };
    const when =
      plan.expect === undefined
        ? this.truthOf(plan.when)
        : negated(this.truthOf(plan.expect), this.columns.rows);
    const applies = intersection(scope.certain, when.certain);
    const doesNotApply = without(scope.possible, when.possible);
    const notInScope = without(this.whole, scope.possible);
    const undetermined = without(this.whole, union(union(applies, doesNotApply), notInScope));
    return { scope, when, applies, doesNotApply, undetermined, notInScope, switchedOff: plan.switchedOff };
  }
}

function constant(truth: number, rows: number): Planes {
  const planes = noPlanes(rows);
  const whole = allRows(rows);
  return {
    certain: truth === TRUE ? whole : planes.certain,
    possible: truth === FALSE ? planes.possible : whole,
  };
}

/** Judges many cases, read before, by one plan. */
export const judgeCases = (plan: Plan, columns: CaseColumns): CasesJudged =>
  new CasesJudged(plan, columns.readFor(plan));
