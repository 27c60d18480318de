import type { Compliance } from '../explain/assessment.ts';
import { and, TRUE, type Truth, UNKNOWN, word } from '../facts/truth.ts';
import type { PlanSet } from '../plan/plan.ts';
import { checkTruth, type RuleTruths, type TruthOf } from './outcomes.ts';

/** All-or-none over the applicable checks, with counts as ranges; nothing where no check can be applicable. */
export function comply(
  set: PlanSet,
  truths: readonly RuleTruths[],
  truthOf: TruthOf,
): Compliance | undefined {
  let all: Truth = TRUE;
  let [met, mayBeMet, applicable, mayBeApplicable] = [0, 0, 0, 0];
  set.rules.forEach((rule, index) => {
    const check = checkTruth(truths[index]!);
    if (check === undefined) return;
    all = and(all, check);
    if (check === TRUE) met += 1;
    else if (check === UNKNOWN && truthOf(rule.expect) === UNKNOWN) mayBeMet += 1;
    if (check === TRUE || truths[index]!.scope === TRUE) applicable += 1;
    else mayBeApplicable += 1;
  });
  if (applicable + mayBeApplicable === 0) return undefined;
  return { all: word(all), met: [met, met + mayBeMet], of: [applicable, applicable + mayBeApplicable] };
}
