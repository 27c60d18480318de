import { assess, type Case, type Condition, type Reason, type TruthWord } from '@dwellset/core';
import { agreement, differingInBitCode, naiveOutcomes, referenceOutcomes } from './agreement.ts';
import { naive } from './naive.ts';
import type { Subject } from './subject.ts';
import { type PlainCase, plainWriter } from './twoValued.ts';

/** Outcomes and statements of reasons that were compared with a plain reading; none differs, or this throws. */
export interface Exact {
  readonly outcomes: number;
  readonly explanations: number;
}

/** Every way that is meant to be exact, on invented rules: outcomes, and the truth of each node of the reasons. */
export async function exactOnInvented(subject: Subject, most: number, explained: number): Promise<Exact> {
  const count = Math.max(20, Math.min(subject.cases.length, Math.round(most / subject.rules)));
  const wanted = naiveOutcomes(subject, count);
  const found = await agreement(subject, wanted, Math.ceil(8000 / subject.rules));
  hold(subject, { ...found.differing, 'bit code': differingInBitCode(subject, wanted) });
  const some = subject.cases.slice(0, Math.ceil(explained / subject.rules));
  const reasons = some.map((patient, at) => differingReasons(subject, patient, subject.plainCases[at]!));
  hold(subject, { reasons: reasons.reduce((sum, one) => sum + one, 0) });
  return { outcomes: found.compared, explanations: some.length * subject.rules };
}

/** The shipped rules, against the second evaluator of the tests. */
export async function exactOnShipped(subject: Subject, cases: number): Promise<Exact> {
  const found = await agreement(subject, referenceOutcomes(subject, cases), cases);
  hold(subject, found.differing);
  return { outcomes: found.compared, explanations: 0 };
}

function hold({ name }: Subject, differing: Readonly<Record<string, number>>): void {
  const wrong = Object.entries(differing).filter(([, count]) => count > 0);
  if (wrong.length === 0) return;
  const said = wrong.map(([way, count]) => `${way}: ${count}`).join(', ');
  throw new Error(`${name}: outcomes differ from the reference (${said}); nothing was timed`);
}

/** How many rules of a case give reasons in which some node has another truth than a plain reading finds. */
function differingReasons({ plan }: Subject, patient: Case, given: PlainCase): number {
  let differing = 0;
  assess(plan, patient, { reasons: 'all' }).ruleSets.forEach((set, at) => {
    const { release } = plan.sets[at]!;
    const plain = plainWriter(release);
    const wordOf = (condition: Condition): TruthWord => {
      const truth = naive(plain(condition), given);
      return truth === undefined ? 'unknown' : truth ? 'true' : 'false';
    };
    const same = (reason: Reason | undefined, condition: Condition | undefined): boolean => {
      if (reason === undefined || condition === undefined) return reason === condition;
      if (reason.truth !== wordOf(condition)) return false;
      const inner = partsOf(condition);
      const of = 'of' in reason ? reason.of : [];
      return of.length === inner.length && of.every((part, index) => same(part, inner[index]));
    };
    set.rules.forEach(({ reasons }, index) => {
      const { scope, when } = release.rules[index]!;
      if (!same(reasons?.scope, scope) || !same(reasons?.when, when)) differing += 1;
    });
  });
  return differing;
}

function partsOf(condition: Condition): readonly Condition[] {
  if ('all' in condition) return condition.all;
  if ('any' in condition) return condition.any;
  return 'not' in condition ? [condition.not] : [];
}
