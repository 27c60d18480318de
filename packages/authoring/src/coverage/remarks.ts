import { FALSE, type Plan, type PlanSet, ruleTruths, TRUE, type Truth } from '@dwellset/core';
import { nodesOfRule } from './decisions.ts';
import { goal } from './goals.ts';
import type { Observed } from './observe.ts';
import { neverHolds } from './prove.ts';
import type { Place, RemarkCoverage } from './shape.ts';
import { reader } from './truths.ts';

/** Each rule that remarks on options: seen on an option, and not seen on another of the same list. */
export function coverRemarks(
  plan: Plan,
  set: PlanSet,
  { options }: Observed,
  placeOf: (rule: string) => Place,
): RemarkCoverage[] {
  return set.rules.flatMap((rule): RemarkCoverage[] => {
    const { remarks, switchedOff } = rule;
    const { id, of } = rule.rule;
    if (remarks === undefined || switchedOff || of === undefined) return [];
    const shows = (wanted: Truth) => (truths: Uint8Array) => {
      const truthOf = reader(truths);
      return ruleTruths(set, rule, truthOf).outcome === 'applies' && truthOf(remarks) === wanted;
    };
    const remark = <W extends string>(what: W, wanted: Truth) => {
      const seen = (options.get(of) ?? []).some(({ truths }) => shows(wanted)(truths));
      return goal(what, seen, () => neverHolds(plan, [...nodesOfRule(set, rule), remarks], shows(wanted)));
    };
    return [
      { of, rule: id, place: placeOf(id), goals: [remark('remarked', TRUE), remark('unremarked', FALSE)] },
    ];
  });
}
