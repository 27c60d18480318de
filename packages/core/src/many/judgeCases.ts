import type { Outcome } from '../explain/assessment.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { Leaf, Node, Plan, PlanRule, PlanSet } from '../plan/plan.ts';
import { outcomeBits } from './outcomeBits.ts';
import { always, count, isIn, joined, negated, noPlanes, type Planes, Room, without } from './planes.ts';
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

/** Where things stand in a plan, looked up once for all the cases it judges. */
interface Index {
  /** By their place in the table of truths. */
  readonly leaves: readonly (Leaf | undefined)[];
  readonly sets: ReadonlyMap<
    string,
    { readonly set: PlanSet; readonly rules: ReadonlyMap<string, PlanRule> }
  >;
}

const indexes = new WeakMap<Plan, Index>();

function indexOf(plan: Plan): Index {
  const known = indexes.get(plan);
  if (known) return known;
  const leaves = new Array<Leaf | undefined>(plan.size);
  for (const leaf of plan.patient.leaves) leaves[leaf.at] = leaf;
  const sets = plan.sets.map(
    (set) => [set.release.id, { set, rules: new Map(set.rules.map((own) => [own.rule.id, own])) }] as const,
  );
  const made = { leaves, sets: new Map(sets) };
  indexes.set(plan, made);
  return made;
}

/** Judges many cases at once. Rules are looked at when asked for, so that one edited rule costs one rule. */
export class CasesJudged {
  readonly columns: CaseColumns;
  readonly plan: Plan;
  private readonly index: Index;
  private readonly nodes: (Planes | undefined)[];
  private readonly rules = new Map<PlanRule, RuleOverCases>();
  private readonly room: Room;
  /** True for every case. */
  private readonly whole: Planes;

  constructor(plan: Plan, columns: CaseColumns) {
    this.plan = plan;
    this.columns = columns;
    this.index = indexOf(plan);
    this.room = new Room(columns.rows);
    this.whole = always(columns.rows);
    this.nodes = new Array<Planes | undefined>(plan.size);
    const never = noPlanes(columns.rows);
    const open = { certain: never.certain, possible: this.whole.possible };
    for (const [at, truth] of plan.constants) {
      this.nodes[at] = truth === TRUE ? this.whole : truth === FALSE ? never : open;
    }
  }

  set(id: string): PlanSet {
    return this.own(id).set;
  }

  rule(set: string, rule: string): RuleOverCases {
    const own = this.own(set);
    const plan = own.rules.get(rule);
    if (!plan) throw new RangeError(`no rule ${set}/${rule}`);
    const known = this.rules.get(plan) ?? this.judge(own.set, plan);
    this.rules.set(plan, known);
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
      'switched-off': found.switchedOff ? count(without(this.whole.certain, closed)) : 0,
    };
  }

  /** The truth of a condition over the patient, for every case. Not to be written into: others look at it too. */
  truthOf(node: Node | undefined): Planes {
    if (node === undefined) return this.whole;
    const known = this.nodes[node.at] ?? this.workOut(node);
    this.nodes[node.at] = known;
    return known;
  }

  private own(set: string) {
    const found = this.index.sets.get(set);
    if (!found) throw new RangeError(`no rule set ${set}`);
    return found;
  }

  private workOut(node: Node): Planes {
    switch (node.kind) {
      case 'fact':
      case 'parameter':
        // What a local choice settles is known from the start.
        return this.columns.leaf(this.index.leaves[node.at]!);
      case 'named':
        return this.truthOf(node.of[0]);
      case 'not':
        return negated(this.truthOf(node.of[0]), this.columns.rows, this.room.planes());
      default:
        return joined(
          node.kind,
          node.of.map((inner) => this.truthOf(inner)),
          this.room,
        );
    }
  }

  private judge(set: PlanSet, plan: PlanRule): RuleOverCases {
    const { room, whole } = this;
    const expect = plan.expect && this.truthOf(plan.expect);
    const when = expect ? negated(expect, this.columns.rows, room.planes()) : this.truthOf(plan.when);
    const population = this.truthOf(set.population);
    // The same reading of scope as for one case: a locked rule does not wait for the population.
    const limit = plan.rule.locked
      ? { certain: population.possible, possible: population.possible }
      : population;
    const bits = outcomeBits(
      {
        whole: whole.certain,
        closed: this.columns.outOfPeriod(set.release.id),
        scopes: [this.truthOf(set.gate), this.truthOf(plan.scope), plan.rule.anyPopulation ? whole : limit],
        when,
      },
      room,
    );
    return { ...bits, when, switchedOff: plan.switchedOff };
  }
}

/** Judges many cases, read before, by one plan. */
export const judgeCases = (plan: Plan, columns: CaseColumns): CasesJudged =>
  new CasesJudged(plan, columns.readFor(plan));
