import type { ConclusionResult } from '../explain/assessment.ts';
import { FALSE } from '../facts/truth.ts';
import type { PlanSet } from '../plan/plan.ts';
import type { RuleTruths, TruthOf } from './outcomes.ts';

/**
 * The first conclusion in precedence that an applying rule gives, else the default; provisional while an
 * undetermined rule of higher precedence could still take its place.
 */
export function conclude(set: PlanSet, truths: readonly RuleTruths[], truthOf: TruthOf): ConclusionResult {
  const { conclusions = [], defaultConclusion } = set.release;
  const outcomesOf = (id: string) =>
    set.rules.flatMap(({ rule }, index) => (rule.concludes === id ? [truths[index]!.outcome] : []));
  const reached = conclusions.findIndex(({ id }) => outcomesOf(id).includes('applies'));
  // Outside the population, or at another stage of care, silence is no conclusion.
  const isOutside = truthOf(set.population) === FALSE || truthOf(set.gate) === FALSE;
  const fallback = isOutside ? undefined : defaultConclusion;
  const current = reached === -1 ? fallback : conclusions[reached];
  const above = conclusions.slice(0, reached === -1 ? undefined : reached);
  const open = above.filter(({ id }) => outcomesOf(id).includes('undetermined'));
  return {
    ...(current ? { id: current.id, title: current.title } : {}),
    settled: open.length === 0,
    possible: [...open, ...(current ? [current] : [])].map(({ id }) => id),
  };
}
