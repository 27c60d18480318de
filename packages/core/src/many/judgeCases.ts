import type { Outcome } from '../explain/assessment.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { Leaf, Node, Plan, PlanRule, PlanSet } from '../plan/plan.ts';
import {
  always,
  both,
  copied,
  count,
  isIn,
  negated,
  noPlanes,
  type Planes,
  Room,
  Scratch,
  without,
} from './planes.ts';
import type { CaseColumns } from './readCases.ts';
import { RuleBits, type RuleOverCases } from './ruleBits.ts';

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
  private readonly scratch: Scratch;
  /** True for every case. */
  private readonly whole: Planes;

  constructor(plan: Plan, columns: CaseColumns) {
    this.plan = plan;
    this.columns = columns;
    this.index = indexOf(plan);
    this.room = new Room(columns.rows);
    this.scratch = new Scratch(this.room);
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
    return node === undefined ? this.whole : this.kept(node, 0);
  }

  private own(set: string) {
    const found = this.index.sets.get(set);
    if (!found) throw new RangeError(`no rule set ${set}`);
    return found;
  }

  /**
   * The truth of a condition: planes that are kept, or those of the scratch at this depth, which stand until something
   * else is worked out there. What is below it takes this depth and deeper ones.
   */
  private workOut(node: Node, depth: number): Planes {
    const known = this.nodes[node.at];
    if (known) return known;
    switch (node.kind) {
      case 'fact':
      case 'parameter':
        // What a local choice settles is known from the start.
        this.nodes[node.at] = this.columns.leaf(this.index.leaves[node.at]!);
        return this.nodes[node.at]!;
      case 'named':
        // Several rules look at it.
        return this.kept(node.of[0], depth);
      case 'not': {
        const inner = this.workOut(node.of[0], depth);
        return negated(inner, this.columns.rows, this.scratch.at(depth));
      }
      default: {
        let joined = this.workOut(node.of[0]!, depth);
        for (let next = 1; next < node.of.length; next += 1) {
          const right = this.workOut(node.of[next]!, depth + 1);
          joined = both(node.kind, joined, right, this.scratch.at(depth));
        }
        return joined;
      }
    }
  }

  /** The truth of a condition that will be asked for again. */
  private kept(node: Node, depth: number): Planes {
    const known = this.nodes[node.at];
    if (known) return known;
    const found = this.workOut(node, depth);
    const own = found === this.scratch.at(depth) ? copied(found, this.room.planes()) : found;
    this.nodes[node.at] = own;
    return own;
  }

  private judge(set: PlanSet, plan: PlanRule): RuleOverCases {
    const { columns, scratch, whole } = this;
    const { rule, expect, when, scope } = plan;
    const population = this.truthOf(set.population);
    // The same reading of scope as for one case: a locked rule does not wait for the population.
    const limit = rule.locked ? { certain: population.possible, possible: population.possible } : population;
    const gate = this.truthOf(set.gate);
    const own = scope ? this.workOut(scope, 0) : whole;
    const body = expect ?? when;
    const looked = body ? this.workOut(body, 1) : whole;
    return new RuleBits(
      {
        whole: whole.certain,
        closed: columns.outOfPeriod(set.release.id),
        scopes: [gate, own, rule.anyPopulation ? whole : limit],
        when: expect ? negated(looked, columns.rows, scratch.at(1)) : looked,
      },
      plan.switchedOff,
      this.room,
    );
  }
}

/** Judges many cases, read before, by one plan. */
export const judgeCases = (plan: Plan, columns: CaseColumns): CasesJudged =>
  new CasesJudged(plan, columns.readFor(plan));
