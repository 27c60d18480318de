import type { ConclusionResult } from '../explain/assessment.ts';
import type { ConclusionRead } from '../facts/derivations/kind.ts';
import { FALSE, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import { type RuleTruths, ruleTruths, type TruthOf, truthIn } from './outcomes.ts';

/**
 * The first conclusion in precedence that an applying rule gives, else the default; provisional while an
 * undetermined rule of higher precedence could still take its place.
 */
export function conclude(set: PlanSet, truths: readonly RuleTruths[], truthOf: TruthOf): ConclusionResult {
  const { conclusions = [], defaultConclusion } = set.release;
  const [reachedBy, openTo] = [new Set<string>(), new Set<string>()];
  set.rules.forEach(({ rule }, index) => {
    if (rule.concludes === undefined) return;
    if (truths[index]!.outcome === 'applies') reachedBy.add(rule.concludes);
    if (truths[index]!.outcome === 'undetermined') openTo.add(rule.concludes);
  });
  const reached = conclusions.findIndex(({ id }) => reachedBy.has(id));
  // Outside the population, or at another stage of care, silence is no conclusion.
  const isOutside = truthOf(set.population) === FALSE || truthOf(set.gate) === FALSE;
  const fallback = isOutside ? undefined : defaultConclusion;
  const current = reached === -1 ? fallback : conclusions[reached];
  const above = conclusions.slice(0, reached === -1 ? undefined : reached);
  const open = above.filter(({ id }) => openTo.has(id));
  return {
    ...(current ? { id: current.id, title: current.title } : {}),
    settled: open.length === 0,
    possible: [...open, ...(current ? [current] : [])].map(({ id }) => id),
  };
}

/** The conclusion of a set as another set reads it, with the facts that keep it open. */
export function concludeSet(set: PlanSet, truths: Uint8Array): ConclusionRead {
  const truthOf = truthIn(truths);
  const own = set.rules.map((rule) => ruleTruths(set, rule, truthOf));
  const { id, settled, possible } = conclude(set, own, truthOf);
  const waiting = set.rules.filter(
    ({ rule }, index) =>
      own[index]!.outcome === 'undetermined' &&
      rule.concludes !== id &&
      possible.includes(rule.concludes ?? ''),
  );
  return {
    possible,
    settled,
    stands: id !== undefined,
    waitsFor: [...new Set(waiting.flatMap((rule) => openFacts(set, rule, truths)))],
  };
}

/** Facts of the open leaves of a rule and of what limits its set. */
function openFacts(set: PlanSet, { rule, scope, when }: PlanRule, truths: Uint8Array): string[] {
  const visit = (node: Node): string[] => {
    if (truths[node.at] !== UNKNOWN) return [];
    if (node.kind === 'fact') return [node.fact];
    return node.kind === 'parameter' ? [] : node.of.flatMap(visit);
  };
  const population = rule.anyPopulation || rule.locked ? undefined : set.population;
  return [population, set.gate, scope, when].flatMap((node) => (node ? visit(node) : []));
}
