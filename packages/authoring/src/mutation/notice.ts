import {
  type Evaluation,
  evaluate,
  explain,
  type Outcome,
  type Plan,
  type PlanRule,
  ruleTruths,
  type TruthOf,
  UNKNOWN,
} from '@dwellset/core';
import type { Expectation } from '../documents/vignettes.ts';
import { type Mismatch, mismatches, readFor } from '../vignettes/expectations.ts';
import type { ReadyVignette } from '../vignettes/runVignettes.ts';
import type { Difference } from './shape.ts';
import type { Together, Variant } from './together.ts';

/** A vignette and what it read, for the set as it stands and for every mistake at once. */
export interface Read {
  readonly rule: string;
  readonly id: string;
  readonly expect: Expectation;
  readonly evaluation: Evaluation;
}

export const readAll = ({ own }: Together, vignettes: readonly ReadyVignette[]): Read[] =>
  vignettes.map(({ rule, vignette, case: patient }) => ({
    rule,
    id: vignette.id,
    expect: vignette.expect,
    evaluation: evaluate(own.plan, patient),
  }));

const truthIn =
  (truths: Uint8Array): TruthOf =>
  (node) =>
    (node === undefined ? 3 : truths[node.at]) as ReturnType<TruthOf>;

const OUTCOMES: readonly string[] = ['applies', 'does-not-apply', 'not-in-scope'] satisfies Outcome[];

/** What a mistake does to the rules in one vignette, short of explaining it. */
interface Effect {
  readonly differs: boolean;
  /** An expected outcome that is missed. */
  readonly missed: Difference | undefined;
  /** Something changed is undecided, so that what is asked, or the word for a check, may be another. */
  readonly open: boolean;
  /** Stock lists of whose options something else is said. */
  readonly kinds: ReadonlySet<string>;
}

/** A rule that a mistake changes, as it stands and with the mistake. */
interface Change {
  readonly rule: PlanRule;
  readonly other: PlanRule;
  /** What it says of options changes. */
  readonly perOption: boolean;
}

function changesIn(own: Variant, variant: Variant): Change[] {
  const limited = sameLimits(own, variant);
  return own.set.rules.flatMap((rule, index): Change[] => {
    const other = variant.set.rules[index]!;
    const same = other.scope === rule.scope && other.when === rule.when && other.expect === rule.expect;
    const perOption =
      other.excludes !== rule.excludes || other.prefers !== rule.prefers || other.remarks !== rule.remarks;
    return same && limited && !perOption ? [] : [{ rule, other, perOption }];
  });
}

const sameLimits = (own: Variant, variant: Variant): boolean =>
  own.set.gate === variant.set.gate && own.set.population === variant.set.population;

function effectOf(
  { evaluation, expect }: Read,
  own: Variant,
  variant: Variant,
  changes: readonly Change[],
): Effect {
  const truthOf = truthIn(evaluation.truths);
  const limits = [own.set.population, own.set.gate].map(truthOf);
  const changed = [variant.set.population, variant.set.gate].map(truthOf);
  const outside = limits.some((truth, at) => truth !== changed[at]);
  let [differs, open] = [outside, false];
  let missed: Difference | undefined;
  const kinds = new Set<string>(outside ? Object.keys(own.set.stock) : []);
  for (const { rule, other, perOption } of changes) {
    const before = ruleTruths(own.set, rule, truthOf);
    const after = ruleTruths(variant.set, other, truthOf);
    const kind = rule.rule.of;
    if (before.outcome !== after.outcome || before.scope !== after.scope || before.when !== after.when) {
      differs = true;
      if (kind !== undefined) kinds.add(kind);
    }
    const expected = expect.rules?.[rule.rule.id];
    if (expected !== undefined && OUTCOMES.includes(expected) && expected !== after.outcome) {
      missed ??= { what: `rules.${rule.rule.id}`, as: before.outcome, with: after.outcome };
    }
    open ||= after.outcome === 'undetermined';
    if (!perOption || kind === undefined) continue;
    for (const option of evaluation.options(own.set.release.id, kind)) {
      const optionTruth = truthIn(option.truths);
      const truths = ({ excludes, prefers, remarks }: PlanRule) =>
        [excludes, prefers && 'options' in prefers ? prefers.options : undefined, remarks].map(optionTruth);
      const [b, a] = [truths(rule), truths(other)];
      if (b.some((truth, at) => truth !== a[at])) {
        differs = true;
        kinds.add(kind);
      }
      if (a.includes(UNKNOWN)) open = true;
    }
  }
  return { differs, missed, open, kinds };
}

/** Whether the words for what is open, or the deciding facts, are expected anywhere. */
const looksCloser = ({ ask, deciding, rules }: Expectation): boolean =>
  ask !== undefined ||
  deciding !== undefined ||
  Object.values(rules ?? {}).some((word) => !OUTCOMES.includes(word));

/** Whether an expectation names anything that such an effect can change, beside whether rules apply. */
function names(expect: Expectation, { kinds }: Effect): boolean {
  const {
    rules: _,
    problems: __,
    options,
    remarks,
    chosen,
    first,
    provisional,
    nothingLeft,
    ...rest
  } = expect;
  const ofOptions = [options, remarks, chosen, first, provisional, nothingLeft];
  return (
    looksCloser(expect) ||
    Object.keys(rest).length > 0 ||
    ofOptions.some((part) => Object.keys(part ?? {}).some((kind) => kinds.has(kind)))
  );
}

/** The vignette that notices a mistake, and what it sees. */
export interface NoticedBy {
  readonly read: Read;
  readonly differences: readonly Difference[];
}

/**
 * The first vignette whose expectations fail with the mistake. Only those are explained in which the mistake changes a
 * truth or leaves something open; elsewhere the assessment is the same to the letter.
 */
export function noticedBy(
  reads: readonly Read[],
  { own }: Together,
  variant: Variant,
): NoticedBy | undefined {
  const changes = changesIn(own, variant);
  const later: Read[] = [];
  for (const read of reads) {
    const effect = effectOf(read, own, variant, changes);
    if (effect.missed) return { read, differences: [effect.missed] };
    if (!names(read.expect, effect)) continue;
    if (effect.differs || (looksCloser(read.expect) && (effect.open || read.expect.deciding !== undefined)))
      later.push(read);
  }
  for (const read of later) {
    const missed = missedIn(read, variant);
    if (missed.length > 0) return { read, differences: missed.map(differenceIn) };
  }
  return undefined;
}

/** What was read stays; the rules that are explained are those of another plan over the same table of truths. */
const judgedBy = (read: Evaluation, plan: Plan): Evaluation => ({
  plan,
  case: read.case,
  readings: read.readings,
  truths: read.truths,
  problems: read.problems,
  asOf: read.asOf,
  zone: read.zone,
  outOfPeriod: read.outOfPeriod,
  options: (set, kind) => read.options(set, kind),
  optionReadings: (set, kind, option) => read.optionReadings(set, kind, option),
});

/** The expectations that fail under the rules of a variant. */
export function missedIn({ evaluation, expect }: Read, { plan, set }: Variant): Mismatch[] {
  return mismatches(expect, explain(judgedBy(evaluation, plan), readFor(expect)), set.release.id);
}

/** A vignette holds as the rules stand, so that what it expects is what they say. */
export function differenceIn({ what, expected, received }: Mismatch): Difference {
  const said = (value: unknown): string => (Array.isArray(value) ? value.join(', ') : String(value ?? ''));
  return { what, as: said(expected), with: said(received) };
}
