import { assess, type Case, type Plan } from '@dwellset/core';
import type { KeyCase, KeyDocument } from '../documents/key.ts';
import type { Library, Placed } from '../library/shape.ts';
import { caseOf } from '../vignettes/caseOf.ts';
import { isPlan, planOf } from '../vignettes/runVignettes.ts';
import type { Outcome } from './bearing.ts';
import { choiceConflicts, judgeChoice } from './choice.ts';
import { conflictsIn, type Variants } from './conflicts.ts';
import { judgeConversion } from './converts.ts';
import { feeding, isFed } from './fed.ts';
import { judge, OF_SETS } from './judge.ts';
import type { CaseScore, Judged, KeyScore, SourceConflict, Verdict } from './shape.ts';

/**
 * Holds the published rules against every answer key: answers that somebody outside the project gave. Each case says
 * whether the rules agree, disagree, or cannot tell, by which rules, and whether the rules were written from the same
 * row. With `only` one key is run. Pure; a set that does not build decides nothing.
 */
export function scoreboard(library: Library, only?: string): KeyScore[] {
  const fed = feeding(library);
  const plans = new Map<string, Plan | undefined>();
  const variants: Variants = new Map();
  const planFor = (set: string): Plan | undefined => {
    if (!plans.has(set)) {
      const plan = planOf(library, set, {});
      plans.set(set, isPlan(plan) ? plan : undefined);
    }
    return plans.get(set);
  };
  const keys = [...library.keys.values()].filter(({ value }) => only === undefined || value.id === only);
  return keys.map((key) => ({
    id: key.value.id,
    title: key.value.title,
    source: key.value.source,
    path: key.document.path,
    cases: key.value.cases.map((_, index) => scoreCase(library, key, index, fed, { planFor, variants })),
  }));
}

/** The published sets, and what they would be with one choice moved. */
interface Plans {
  readonly planFor: (set: string) => Plan | undefined;
  readonly variants: Variants;
}

function scoreCase(
  library: Library,
  { value: key, document }: Placed<KeyDocument>,
  index: number,
  fed: ReadonlySet<string>,
  plans: Plans,
): CaseScore {
  const one = key.cases[index]!;
  const { id, row, source = key.source, locator, status, says, differs, answer } = one;
  const patient = caseOf(key.base, one);
  const ofSets = OF_SETS.filter((part) => answer[part]).map((part) =>
    judgeSet(part, answer, patient, plans.planFor),
  );
  const judged = [
    ...ofSets,
    ...(answer.choice ? [judgeChoice(library, answer.choice)] : []),
    ...(answer.converts ? [judgeConversion(answer.converts)] : []),
  ];
  const verdict = worst(judged);
  return {
    id,
    ...(row !== undefined && { row }),
    source,
    locator,
    status,
    says,
    verdict,
    judged,
    fed: isFed(library, fed, one, source),
    ...(differs !== undefined && { differs }),
    conflicts: verdict === 'disagreed' ? conflictsOf(library, answer, judged, patient, plans) : [],
    range: document.source.locate(`/cases/${index}`),
  };
}

function worst(judged: readonly Judged[]): Verdict {
  const verdicts = judged.map(({ verdict }) => verdict);
  if (verdicts.includes('disagreed')) return 'disagreed';
  return verdicts.length === 0 || verdicts.includes('not-decidable') ? 'not-decidable' : 'agreed';
}

type OfSet = (typeof OF_SETS)[number];

function judgeSet(
  part: OfSet,
  answer: KeyCase['answer'],
  patient: Case,
  planFor: (set: string) => Plan | undefined,
): Judged {
  const plan = planFor(answer[part]!.set);
  const outcome = plan && outcomeOf(plan, answer[part]!.set, patient);
  if (outcome) return judge(part, answer, outcome);
  const nothing = { expected: null, received: null, by: [], asks: [] };
  return { part, verdict: 'not-decidable', undecided: 'not-run', ...nothing };
}

/** The set that was asked for stands first in its plan. */
function outcomeOf(plan: Plan, id: string, patient: Case): Outcome | undefined {
  const { ruleSets, ask } = assess(plan, patient, { reasons: 'none' });
  const release = plan.sets.find((one) => one.release.id === id)?.release;
  const set = ruleSets.find((one) => one.id === id);
  const own = ask.filter(({ rules }) => rules.some((rule) => rule.startsWith(`${id}/`)));
  return release && set && { set, release, asks: own.map(({ fact }) => fact) };
}

function conflictsOf(
  library: Library,
  answer: KeyCase['answer'],
  judged: readonly Judged[],
  patient: Case,
  { planFor, variants }: Plans,
): SourceConflict[] {
  const missed = new Set(judged.filter(({ verdict }) => verdict === 'disagreed').map(({ part }) => part));
  const inSets = OF_SETS.filter((part) => missed.has(part)).flatMap((part) => {
    const id = answer[part]!.set;
    const [set, plan] = [library.sets.get(id), planFor(id)];
    return set && plan
      ? conflictsIn(
          library,
          set,
          plan,
          variants,
          (other) => judgeSet(part, answer, patient, () => other).verdict === 'agreed',
        )
      : [];
  });
  return [
    ...inSets,
    ...(answer.choice && missed.has('choice') ? choiceConflicts(library, answer.choice) : []),
  ];
}
