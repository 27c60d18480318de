import { and, canonicalJson, not, or, type PlanRule, TRUE, type Truth, type TruthOf } from '@dwellset/core';
import { allApply, appliesIn, type Draft, nodesOf, placeOf, proofOf } from '../draft.ts';
import type { Subject } from '../subject.ts';
import { seek, shownBy } from '../witness.ts';

/**
 * Whether some of these rules apply to everybody to whom the first one does. In boxes where they can be written out;
 * else, or where two facts may hang together, by a search for somebody who is left out. `even` asks it of patients
 * of whom too little is known as well: the first rule may speak while the others are still undetermined.
 */
export function isCovered(
  subject: Subject,
  rule: PlanRule,
  by: readonly PlanRule[],
  even?: 'if-missing',
): boolean | 'unsure' {
  const inBoxes = coveredInBoxes(subject, rule, by);
  if (inBoxes === false || (inBoxes === true && even === undefined)) return inBoxes;
  const own = appliesIn(subject, rule);
  const others = by.map((other) => appliesIn(subject, other));
  const anyOther = (truthOf: TruthOf): Truth => others.map((applies) => applies(truthOf)).reduce(or);
  const left = seek(subject, {
    nodes: nodesOf(subject, [rule, ...by]),
    holds: (truthOf) => and(own(truthOf), not(anyOther(truthOf))),
    ...(even && { ifMissing: (truthOf) => own(truthOf) === TRUE && anyOther(truthOf) !== TRUE }),
  });
  return left === 'none' ? true : left === 'unsure' ? 'unsure' : false;
}

/** Nothing where boxes do not settle it. */
function coveredInBoxes(subject: Subject, rule: PlanRule, by: readonly PlanRule[]): boolean | undefined {
  const own = subject.applies(rule);
  // Of a rule that never applies it would say nothing.
  if (own?.length === 0) return false;
  const covered = subject.isWithin(rule, by);
  if (covered !== false) return covered;
  const known = [rule, ...by].flatMap((one) => subject.applies(one)!);
  return subject.alphabet().looseIn(known) ? undefined : false;
}

/** What a rule says and does, apart from when. */
function voiceOf({ rule, excludes, remarks, prefers }: PlanRule): string {
  const { concludes, advice, of, supersedes } = rule;
  const { summary, detail, indicator, suggestions } = advice ?? {};
  const item = [excludes?.at, remarks?.at, prefers && ('options' in prefers ? prefers.options.at : prefers)];
  return canonicalJson(
    JSON.parse(JSON.stringify([concludes, summary, detail, indicator, suggestions, of, supersedes, item])),
  );
}

/**
 * A rule is redundant where another one says the same whenever it applies. Where the other says something else, that
 * is how graded advice is written (a stronger word beyond a further limit) and no finding.
 */
export function* redundant(subject: Subject): Generator<Draft> {
  const alike = new Map<string, PlanRule[]>();
  for (const rule of subject.rules) {
    const voice = voiceOf(rule);
    alike.set(voice, [...(alike.get(voice) ?? []), rule]);
  }
  const found = new Set<PlanRule>();
  for (const rules of alike.values()) {
    // Of two that are equal the later one is the one too many.
    for (const rule of [...rules].reverse()) {
      // What a hospital may switch off or amend does not stand in for what it may not.
      const others = rules.filter(
        (other) => other !== rule && !found.has(other) && (other.rule.locked || !rule.rule.locked),
      );
      const other = others.find((one) => isCovered(subject, rule, [one], 'if-missing') === true);
      if (other === undefined) continue;
      found.add(rule);
      yield draftOf(subject, 'redundant', rule, [other]);
    }
  }
}

/** Conclusions that never stand, since whenever their rule applies one of higher precedence does. */
export function* neverStands(subject: Subject): Generator<Draft> {
  const order = (subject.release.conclusions ?? []).map(({ id }) => id);
  const rankOf = ({ rule }: PlanRule): number => order.indexOf(rule.concludes ?? '');
  for (const rule of subject.rules) {
    if (rankOf(rule) < 1) continue;
    const higher = subject.rules.filter((other) => rankOf(other) >= 0 && rankOf(other) < rankOf(rule));
    if (higher.length === 0) continue;
    const covered = isCovered(subject, rule, higher);
    if (covered === true) yield draftOf(subject, 'never-stands', rule, narrowed(subject, rule, higher));
    if (covered === 'unsure') yield possible(subject, 'never-stands', rule);
  }
}

/** Rules that nobody ever reads, since others fold them away whenever they apply. */
export function* alwaysFolded(subject: Subject): Generator<Draft> {
  for (const rule of subject.rules) {
    const { locked, advice } = rule.rule;
    const folders = foldersOf(subject, rule);
    // A locked critical rule is never folded.
    if (folders.length === 0 || (locked && advice?.indicator === 'critical')) continue;
    const covered = isCovered(subject, rule, folders, 'if-missing');
    if (covered === true) {
      yield draftOf(subject, 'always-folded', rule, narrowed(subject, rule, folders));
    } else if (locked) yield* lockFolded(subject, rule, folders);
  }
}

/** A lock is disarmed where an unlocked rule folds it away. */
function* lockFolded(subject: Subject, rule: PlanRule, folders: readonly PlanRule[]): Generator<Draft> {
  for (const folder of folders) {
    if (folder.rule.locked) continue;
    const found = seek(subject, allApply(subject, [rule, folder]));
    if (found === 'none') continue;
    const of = [rule.rule.id, folder.rule.id];
    yield {
      kind: 'lock-folded',
      of,
      place: placeOf(subject, rule),
      ...(found === 'unsure'
        ? { certainty: 'possible' }
        : { certainty: 'certain', witness: shownBy(subject, found.patient, headsOf(of)) }),
    };
  }
}

/** Rules that fold a rule: what they fold folds it as well only while it applies itself, and is then named here too. */
const foldersOf = ({ rules }: Subject, { rule }: PlanRule): PlanRule[] =>
  rules.filter(({ rule: other }) => other.advice && other.supersedes?.includes(rule.id));

/** As few as are needed, the later ones left out first. */
function narrowed(subject: Subject, rule: PlanRule, by: readonly PlanRule[]): readonly PlanRule[] {
  const single = by.find((one) => isCovered(subject, rule, [one]) === true);
  if (single) return [single];
  return by.reduceRight<readonly PlanRule[]>((kept, one) => {
    const fewer = kept.filter((other) => other !== one);
    return fewer.length > 0 && isCovered(subject, rule, fewer) === true ? fewer : kept;
  }, by);
}

export const headsOf = (rules: readonly string[]): string[] => [
  ...rules.map((id) => `rules.${id}`),
  'conclusion',
  'advice',
];

type Covering = 'redundant' | 'never-stands' | 'always-folded';

/** Certain where somebody is shown to whom the rule applies; of a rule that applies to nobody it would say nothing. */
function draftOf(subject: Subject, kind: Covering, rule: PlanRule, by: readonly PlanRule[]): Draft {
  const of = [rule, ...by].map(({ rule: { id } }) => id);
  const example = seek(subject, allApply(subject, [rule]));
  const shown = typeof example === 'object' ? shownBy(subject, example.patient, headsOf(of)) : undefined;
  return {
    kind,
    of,
    certainty: shown ? 'certain' : 'possible',
    place: placeOf(subject, rule),
    ...(shown && { witness: shown }),
    proof: proofOf(subject, nodesOf(subject, [rule, ...by])),
  };
}

const possible = (subject: Subject, kind: Covering, rule: PlanRule): Draft => ({
  kind,
  of: [rule.rule.id],
  certainty: 'possible',
  place: placeOf(subject, rule),
});
