import type { Evaluation } from '../evaluate/evaluate.ts';
import type { OptionEvaluation } from '../evaluate/options.ts';
import { ruleTruths, truthIn } from '../evaluate/outcomes.ts';
import { PLACE } from '../explain/expand.ts';
import { and, FALSE, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import { runGates } from '../plan/run.ts';
import { Standing } from './standing.ts';

type Read = Pick<OptionEvaluation, 'truths' | 'readings'>;

/**
 * The facts still to be fetched that can change an outcome, a conclusion, an option or a text of advice. Truths that
 * a fetch could unsettle again count as open; over the rest Kleene logic is monotone, so what is not named here
 * changes nothing.
 */
export function needed(evaluation: Evaluation, toFetch: ReadonlySet<string>): ReadonlySet<string> {
  // Another set's conclusion stands once nothing can change that set; those that read it are looked at again then.
  const resolved = new Set(evaluation.outOfPeriod);
  for (;;) {
    const search = new Search(evaluation, new Standing(evaluation, toFetch, resolved));
    const done = evaluation.plan.sets.filter((set) => search.isDecided(set) && !resolved.has(set.release.id));
    if (done.length === 0) return search.found;
    for (const { release } of done) resolved.add(release.id);
  }
}

class Search {
  readonly found = new Set<string>();
  private readonly open = new Set<string>();
  private readonly evaluation: Evaluation;
  private readonly standing: Standing;

  constructor(evaluation: Evaluation, standing: Standing) {
    this.evaluation = evaluation;
    this.standing = standing;
    const firm = this.firm(evaluation, false);
    for (const set of evaluation.plan.sets)
      if (!evaluation.outOfPeriod.has(set.release.id)) this.set(set, firm);
  }

  /** Whether every rule of a set, its population and its stage are beyond change. */
  isDecided({ release }: PlanSet): boolean {
    return !this.open.has(release.id);
  }

  /** The same truths, with those of facts that may still be unsettled taken back. */
  private firm(read: Read, isOption: boolean): Read {
    const { plan } = this.evaluation;
    const truths = read.truths.slice();
    for (const leaf of plan.patient.leaves)
      if (!this.standing.isFirm(leaf.fact, this.evaluation)) truths[leaf.at] = UNKNOWN;
    runGates(plan.patient.gates, truths);
    if (!isOption) return { truths, readings: read.readings };
    for (const leaf of plan.option.leaves)
      if (!this.standing.isFirm(leaf.fact, read)) truths[leaf.at] = UNKNOWN;
    runGates(plan.option.gates, truths);
    return { truths, readings: read.readings };
  }

  private set(set: PlanSet, firm: Read): void {
    for (const node of [set.population, set.gate]) this.node(node, firm, set);
    const truthOf = truthIn(firm.truths);
    for (const plan of set.rules) {
      if (plan.switchedOff) continue;
      const { scope, outcome } = ruleTruths(set, plan, truthOf);
      if (scope === FALSE) continue;
      for (const node of [plan.scope, plan.when, plan.expect]) this.node(node, firm, set);
      if (outcome === 'applies') this.texts(plan, firm);
    }
    for (const kind of Object.keys(set.stock)) {
      for (const option of this.evaluation.options(set.release.id, kind)) this.option(set, kind, option);
    }
  }

  private option(set: PlanSet, kind: string, option: OptionEvaluation): void {
    const firm = this.firm(option, true);
    const truthOf = truthIn(firm.truths);
    let speaks = false;
    for (const plan of set.rules) {
      if (plan.switchedOff || plan.rule.of !== kind) continue;
      const { scope, when } = ruleTruths(set, plan, truthOf);
      if (and(scope, when) === FALSE) continue;
      speaks = true;
      const { prefers } = plan;
      for (const node of [
        plan.excludes,
        plan.remarks,
        prefers && 'options' in prefers ? prefers.options : undefined,
      ])
        this.node(node, firm, set);
      if (prefers && 'lowest' in prefers) this.fact(prefers.lowest, firm, set);
      this.texts(plan, firm);
    }
    const isAbout = and(truthOf(set.population), truthOf(set.gate)) !== FALSE;
    if (!speaks && !isAbout) return;
    // What an option is like is shown beside it.
    const own = new Set(set.release.facts.map(({ id }) => id));
    for (const { id } of this.evaluation.plan.optionFacts.facts) if (own.has(id)) this.fact(id, firm, set);
  }

  private node(node: Node | undefined, read: Read, set: PlanSet): void {
    if (node === undefined || read.truths[node.at] !== UNKNOWN) return;
    if (node.kind === 'fact') this.fact(node.fact, read, set);
    else if (node.kind !== 'parameter') for (const inner of node.of) this.node(inner, read, set);
  }

  private fact(id: string, read: Read, set?: PlanSet): void {
    const open = this.standing.behind(id, read);
    for (const fact of open.facts) this.found.add(fact);
    if (set && (open.facts.size > 0 || open.waits)) this.open.add(set.release.id);
  }

  /** Facts that the texts of an applying rule print. */
  private texts({ rule }: PlanRule, read: Read): void {
    for (const [, id = ''] of JSON.stringify([rule.advice, rule.because]).matchAll(PLACE)) {
      if (read.readings.has(id)) this.fact(id, read);
    }
  }
}
