import type { ConclusionResult, Outcome } from '../explain/assessment.ts';
import type { ConclusionRead } from '../facts/derivations/kind.ts';
import { FALSE, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import { ruleTruths, type TruthOf, truthIn } from './outcomes.ts';

/**
 * The first conclusion in precedence that an applying rule gives, else the default; provisional while an
 * undetermined rule of higher precedence could still take its place.
 */
export function conclude(
  set: PlanSet,
  outcomeOf: (rule: number) => Outcome,
  truthOf: TruthOf,
): ConclusionResult {
  const { conclusions = [], defaultConclusion } = set.release;
  const reaching = reachingIn(set);
  const possible: string[] = [];
  let current: { readonly id: string; readonly title: string } | undefined;
  for (let at = 0; at < conclusions.length && current === undefined; at += 1) {
    const { applies, isOpen } = reached(reaching[at]!, outcomeOf);
    if (applies) current = conclusions[at];
    else if (isOpen) possible.push(conclusions[at]!.id);
  }
  const settled = possible.length === 0;
  // Outside the population, or at another stage of care, silence is no conclusion.
  if (truthOf(set.population) !== FALSE && truthOf(set.gate) !== FALSE) current ??= defaultConclusion;
  if (current === undefined) return { settled, possible };
  possible.push(current.id);
  return { id: current.id, title: current.title, settled, possible };
}

/** By conclusion, in their precedence: places of the rules that give it. */
function reachingIn(set: PlanSet): readonly (readonly number[])[] {
  const known = reachingBySet.get(set);
  if (known) return known;
  const found = (set.release.conclusions ?? []).map(({ id }) =>
    set.rules.flatMap(({ rule }, place) => (rule.concludes === id ? [place] : [])),
  );
  reachingBySet.set(set, found);
  return found;
}

const reachingBySet = new WeakMap<PlanSet, readonly (readonly number[])[]>();

/** Whether one of some rules applies, or is undetermined. */
function reached(rules: readonly number[], outcomeOf: (rule: number) => Outcome) {
  let isOpen = false;
  for (const rule of rules) {
    const outcome = outcomeOf(rule);
    if (outcome === 'applies') return { applies: true, isOpen };
    isOpen ||= outcome === 'undetermined';
  }
  return { applies: false, isOpen };
}

/** The conclusion of a set as another set reads it, with the facts that keep it open. */
export class Concluded implements ConclusionRead {
  readonly possible: readonly string[];
  readonly settled: boolean;
  readonly stands: boolean;
  private readonly set: PlanSet;
  private readonly truths: Uint8Array;
  private found: readonly string[] | undefined;

  constructor(set: PlanSet, truths: Uint8Array) {
    const truthOf = truthIn(truths);
    const { id, settled, possible } = conclude(
      set,
      (rule) => ruleTruths(set, set.rules[rule]!, truthOf).outcome,
      truthOf,
    );
    this.set = set;
    this.truths = truths;
    this.possible = possible;
    this.settled = settled;
    this.stands = id !== undefined;
  }

  /** Few ask for it, and to find it costs many times what the conclusion does. */
  get waitsFor(): readonly string[] {
    this.found ??= this.find();
    return this.found;
  }

  private find(): string[] {
    const { set, truths, possible, stands } = this;
    const id = stands ? possible.at(-1) : undefined;
    const open = set.rules.filter(
      (plan) =>
        plan.rule.concludes !== undefined &&
        plan.rule.concludes !== id &&
        possible.includes(plan.rule.concludes) &&
        ruleTruths(set, plan, truthIn(truths)).outcome === 'undetermined',
    );
    return openFacts(set, open, truths);
  }
}

/** Facts of the open leaves of rules and of what limits their set, in the order in which they stand there. */
function openFacts(set: PlanSet, rules: readonly PlanRule[], truths: Uint8Array): string[] {
  const facts = new Set<string>();
  const seen = new Set<number>();
  const visit = (node: Node | undefined): void => {
    if (node === undefined || truths[node.at] !== UNKNOWN || seen.has(node.at)) return;
    // A named condition stands at the place of what it names.
    if (node.kind !== 'named') seen.add(node.at);
    if (node.kind === 'fact') facts.add(node.fact);
    else if (node.kind !== 'parameter') node.of.forEach(visit);
  };
  for (const { rule, scope, when } of rules) {
    const population = rule.anyPopulation || rule.locked ? undefined : set.population;
    for (const node of [population, set.gate, scope, when]) visit(node);
  }
  return [...facts];
}
