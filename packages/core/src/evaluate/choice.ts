import type { ChoiceResult, OptionState } from '../explain/assessment.ts';
import { and, FALSE, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import type { Node, PlanRule, PlanSet } from '../plan/plan.ts';
import { CHOSEN, type OptionEvaluation } from './options.ts';
import type { RuleTruths } from './outcomes.ts';

/** How one option stands: which rules exclude it, may exclude it, prefer it, or have a remark. */
export interface Judged {
  readonly option: OptionEvaluation;
  readonly state: OptionState;
  readonly excludedBy: readonly PlanRule[];
  readonly undecided: readonly PlanRule[];
  readonly preferredBy: readonly PlanRule[];
  readonly remarkedBy: readonly PlanRule[];
  readonly rank?: number;
}

export interface JudgedChoice extends Pick<ChoiceResult, 'of' | 'provisional'> {
  readonly options: readonly Judged[];
  readonly chosen?: Judged;
  readonly nothingLeft?: readonly PlanRule[];
}

interface OwnRule {
  readonly plan: PlanRule;
  /** Truth of scope and `when`: whether the rule is about this patient; true or unknown. */
  readonly speaks: Truth;
}

/**
 * Judges and ranks the options of one stock list. `speaks` says whether the set is about this patient: where it is
 * not, only what a stop rules out is left to say; where that is not known, the order is provisional.
 */
export function judge(
  set: PlanSet,
  kind: string,
  truths: readonly RuleTruths[],
  options: readonly OptionEvaluation[],
  speaks: Truth,
): JudgedChoice | undefined {
  const own: OwnRule[] = [];
  set.rules.forEach((plan, index) => {
    if (plan.rule.of !== kind) return;
    const { outcome, scope, when } = truths[index]!;
    const ofPatient = and(scope, when);
    // A rule that is not about this patient says nothing of any option.
    if (outcome !== 'switched-off' && ofPatient !== FALSE) own.push({ plan, speaks: ofPatient });
  });
  const excluding = own.filter(({ plan }) => plan.excludes !== undefined);
  const preferring = own.filter(({ plan }) => plan.prefers !== undefined);
  const remarking = own.filter(({ plan }) => plan.remarks !== undefined);
  const judged = options.map((option) => judgeOption({ excluding, preferring, remarking }, option));
  const listed = judged.filter(({ option }) => option.id !== CHOSEN);
  const chosen = judged.find(({ option }) => option.id === CHOSEN);
  const ranked = rank(preferring, listed);
  const suitable = ranked.filter(({ state }) => state !== 'ruled-out');
  const unsure = preferring.some((rule) =>
    suitable.some(({ option }) => preferenceTruth(rule, option) === UNKNOWN),
  );
  if (speaks === FALSE) {
    const stopped = ranked.filter(({ state }) => state === 'ruled-out');
    const inHand = chosen?.state === 'ruled-out' ? { chosen } : {};
    return stopped.length > 0 || chosen?.state === 'ruled-out'
      ? { of: kind, provisional: false, options: stopped, ...inHand }
      : undefined;
  }
  return {
    of: kind,
    provisional: speaks === UNKNOWN || unsure || suitable.some(({ state }) => state !== 'open'),
    options: ranked,
    ...(chosen ? { chosen } : {}),
    ...(listed.length > 0 && suitable.length === 0 ? { nothingLeft: fewestThatExclude(own, listed) } : {}),
  };
}

const truthBeside = ({ truths }: OptionEvaluation, { at }: Node): Truth => truths[at] as Truth;

interface ByPart {
  readonly excluding: readonly OwnRule[];
  readonly preferring: readonly OwnRule[];
  readonly remarking: readonly OwnRule[];
}

function judgeOption({ excluding, preferring, remarking }: ByPart, option: OptionEvaluation): Judged {
  const excludedBy: PlanRule[] = [];
  const undecided: PlanRule[] = [];
  for (const rule of excluding) {
    const truth = and(rule.speaks, truthBeside(option, rule.plan.excludes!));
    if (truth === TRUE) excludedBy.push(rule.plan);
    else if (truth === UNKNOWN) undecided.push(rule.plan);
  }
  const held = undecided.some(({ rule }) => rule.locked);
  return {
    option,
    state: excludedBy.length > 0 ? 'ruled-out' : held ? 'held' : undecided.length > 0 ? 'to-confirm' : 'open',
    excludedBy,
    undecided,
    preferredBy: plansOf(
      preferring.filter((rule) => 'options' in rule.plan.prefers! && preferenceTruth(rule, option) !== FALSE),
    ),
    remarkedBy: plansOf(
      remarking.filter(({ plan, speaks }) => speaks === TRUE && truthBeside(option, plan.remarks!) === TRUE),
    ),
  };
}

const plansOf = (rules: readonly OwnRule[]): PlanRule[] => rules.map(({ plan }) => plan);

/** Unknown where it is not decided whether, or by how much, the option is preferred. */
function preferenceTruth({ plan, speaks }: OwnRule, option: OptionEvaluation): Truth {
  if (plan.prefers === undefined) return FALSE;
  if ('options' in plan.prefers) return and(speaks, truthBeside(option, plan.prefers.options));
  return and(speaks, option.known(plan.prefers.lowest)?.cause === undefined ? TRUE : UNKNOWN);
}

/** Smaller is better; an undetermined preference counts as one. */
function preferenceKey(rule: OwnRule, option: OptionEvaluation): number {
  const { prefers } = rule.plan;
  if (prefers === undefined) return 0;
  if ('options' in prefers) return preferenceTruth(rule, option) === FALSE ? 1 : 0;
  const reading = option.known(prefers.lowest);
  return reading?.bounds.kind === 'interval' && reading.cause === undefined ? reading.bounds.low : Infinity;
}

/** Held options last, then the preferring rules in their order; equals share a rank and keep the order of the list. */
function rank(preferring: readonly OwnRule[], listed: readonly Judged[]): Judged[] {
  const keyed = listed.map((judged) => ({
    judged,
    key: [judged.state === 'held' ? 1 : 0, ...preferring.map((rule) => preferenceKey(rule, judged.option))],
  }));
  const compare = (a: readonly number[], b: readonly number[]): number => {
    const first = a.findIndex((value, index) => value !== b[index]);
    return first === -1 ? 0 : a[first]! < b[first]! ? -1 : 1;
  };
  const suitable = keyed
    .filter(({ judged }) => judged.state !== 'ruled-out')
    .sort((a, b) => compare(a.key, b.key));
  let first = 0;
  const ranked = suitable.map(({ judged, key }, index) => {
    if (compare(suitable[first]!.key, key) !== 0) first = index;
    return { ...judged, rank: first + 1 };
  });
  return [...ranked, ...listed.filter(({ state }) => state === 'ruled-out')];
}

/** The fewest rules that together rule every option out; of equally small sets the first in rule order. */
function fewestThatExclude(own: readonly OwnRule[], listed: readonly Judged[]): PlanRule[] {
  const rules = own
    .map(({ plan }) => plan)
    .filter((plan) => listed.some((judged) => judged.excludedBy.includes(plan)));
  const covers = (chosen: readonly PlanRule[]): boolean =>
    listed.every(({ excludedBy }) => excludedBy.some((plan) => chosen.includes(plan)));
  const pick = (size: number, from: number, chosen: readonly PlanRule[]): PlanRule[] | undefined => {
    if (size === 0) return covers(chosen) ? [...chosen] : undefined;
    for (let index = from; index <= rules.length - size; index += 1) {
      const found = pick(size - 1, index + 1, [...chosen, rules[index]!]);
      if (found) return found;
    }
    return undefined;
  };
  for (let size = 1; size <= rules.length; size += 1) {
    const found = pick(size, 0, []);
    if (found) return found;
  }
  return rules;
}
