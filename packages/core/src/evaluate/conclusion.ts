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
  outcomeOf: (rule: PlanRule, index: number) => Outcome,
  truthOf: TruthOf,
): ConclusionResult {
  const { conclusions = [], defaultConclusion } = set.release;
  const [reachedBy, openTo] = [new Set<string>(), new Set<string>()];
  set.rules.forEach((plan, index) => {
    const { concludes } = plan.rule;
    if (concludes === undefined) return;
    const outcome = outcomeOf(plan, index);
    if (outcome === 'applies') reachedBy.add(concludes);
    if (outcome === 'undetermined') openTo.add(concludes);
  });
  const reached = conclusions.findIndex(({ id }) => reachedBy.has(id));
  // Outside the population, or at another stage of care, silence is no conclusion.
  const isOutside = truthOf(set.population) === FALSE || truthOf(set.gate) === FALSE;
  const fallback = isOutside ? undefined : defaultConclusion;
  const current = reached === -1 ? fallback : conclusions[reached];
  const above = reached === -1 ? conclusions : conclusions.slice(0, reached);
  const open = openTo.size === 0 ? [] : above.filter(({ id }) => openTo.has(id));
  return {
    ...(current ? { id: current.id, title: current.title } : {}),
    settled: open.length === 0,
    possible: [...open, ...(current ? [current] : [])].map(({ id }) => id),
  };
}

/** The conclusion of a set as another set reads it, with the facts that keep it open. */
export function concludeSet(set: PlanSet, truths: Uint8Array): ConclusionRead {
  const truthOf = truthIn(truths);
  const outcomeOf = (plan: PlanRule): Outcome => ruleTruths(set, plan, truthOf).outcome;
  const { id, settled, possible } = conclude(set, outcomeOf, truthOf);
  let found: readonly string[] | undefined;
  return {
    possible,
    settled,
    stands: id !== undefined,
    // Few ask for it, and to find it costs many times what the conclusion does.
    get waitsFor() {
      found ??= openFacts(
        set,
        set.rules.filter(
          (plan) =>
            plan.rule.concludes !== undefined &&
            plan.rule.concludes !== id &&
            possible.includes(plan.rule.concludes) &&
            outcomeOf(plan) === 'undetermined',
        ),
        truths,
      );
      return found;
    },
  };
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
