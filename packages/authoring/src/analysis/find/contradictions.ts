import { and, type Case, type Node, type PlanRule, ruleTruths } from '@dwellset/core';
import { saidBy } from '../../boxes/visible.ts';
import { allApply, type Draft, existence, nodesOf, placeOf, proofOf } from '../draft.ts';
import { areOpposed, ordersOf } from '../orders.ts';
import { overlap, type Region } from '../region.ts';
import { itemNodeOf, type Subject } from '../subject.ts';
import { type Found, seek, shownBy } from '../witness.ts';
import { pairsOf } from './applies.ts';
import { headsOf, isCovered } from './implied.ts';

const mayMeet = (subject: Subject, a: PlanRule, b: PlanRule): boolean => subject.meet(a, b) !== false;

const certainty = (found: Exclude<Found, 'none'>, subject: Subject, heads: readonly string[]) =>
  found === 'unsure'
    ? ({ certainty: 'possible' } as const)
    : ({ certainty: 'certain', witness: shownBy(subject, found.patient, heads) } as const);

/** Two rules that one patient is told by, one to do what the other says not to do, neither folded away. */
export function* contradictoryAdvice(subject: Subject): Generator<Draft> {
  const { plan, release } = subject;
  const orders = new Map(subject.rules.map((rule) => [rule, ordersOf(rule.rule)]));
  for (const [a, b] of pairsOf(subject.rules)) {
    if (!areOpposed(orders.get(a)!, orders.get(b)!) || !mayMeet(subject, a, b)) continue;
    const of = [a.rule.id, b.rule.id];
    const bothSpeak = (patient: Case): boolean => {
      const spoken = saidBy(plan, release.id, patient).get('advice')?.split(', ') ?? [];
      return of.every((id) => spoken.includes(id));
    };
    if ([a, b].some(({ rule }) => rule.supersedes?.some((id) => of.includes(id)))) continue;
    const found = seek(subject, { ...allApply(subject, [a, b]), accept: bothSpeak });
    if (found === 'none') continue;
    const verdict = certainty(found, subject, headsOf(of));
    yield { kind: 'contradictory-advice', of, place: placeOf(subject, b), ...verdict };
  }
}

/** Whether somebody may meet a check whom the other one is about as well. */
function mayMeetBeside(
  subject: Subject,
  rule: PlanRule,
  both: readonly PlanRule[],
  met: ReadonlyMap<PlanRule, Region | undefined>,
): boolean {
  const [other] = both.filter((one) => one !== rule);
  const [own, about] = [met.get(rule), subject.inScope(other!)];
  return own === undefined || about === undefined || overlap(subject.alphabet().layout, own, about);
}

/** Checks that some patient has to meet both of, while nobody can. */
export function* checksContradict(subject: Subject): Generator<Draft> {
  const { set } = subject;
  const checks = subject.rules.filter(({ expect }) => expect !== undefined);
  const met = new Map(
    checks.map((rule) => [rule, subject.all([subject.inScope(rule), subject.looksFor(rule, false)])]),
  );
  for (const [a, b] of pairsOf(checks)) {
    const [one, other] = [met.get(a), met.get(b)];
    // What nobody can meet by itself is another finding.
    if (one === undefined || other === undefined || one.length === 0 || other.length === 0) continue;
    if (overlap(subject.alphabet().layout, one, other)) continue;
    const both = [a, b];
    // What is asked only of those who miss the other check is asked of nobody who meets it.
    if (both.some((rule) => !mayMeetBeside(subject, rule, both, met))) continue;
    const shared = subject.all(both.map((rule) => subject.inScope(rule)));
    if (shared?.length === 0) continue;
    const found = seek(subject, {
      nodes: nodesOf(subject, both),
      holds: (truthOf) => both.map((rule) => ruleTruths(set, rule, truthOf).scope).reduce(and),
    });
    if (found === 'none') continue;
    const of = both.map(({ rule }) => rule.id);
    yield {
      kind: 'checks-contradict',
      of,
      place: placeOf(subject, b),
      ...certainty(
        found,
        subject,
        of.map((id) => `rules.${id}`),
      ),
      proof: proofOf(subject, nodesOf(subject, both)),
    };
  }
}

/**
 * A rule that prefers items of which the other prefers none, or which the other rules out, for the same patient. The
 * order of the rules settles it, but one of them is then not followed.
 */
export function* preferenceContradicted(subject: Subject): Generator<Draft> {
  const ofItems = subject.rules.filter(
    ({ excludes, prefers }) => excludes ?? (prefers && 'options' in prefers),
  );
  for (const [a, b] of pairsOf(ofItems)) {
    const kind = a.rule.of;
    if (kind === undefined || kind !== b.rule.of || !mayMeet(subject, a, b)) continue;
    const [preferring, other] = a.prefers ? [a, b] : [b, a];
    if (preferring.prefers === undefined) continue;
    const nodes = [itemNodeOf(preferring), itemNodeOf(other)] as const;
    const excluded = other.excludes !== undefined;
    if (!conflict(subject, kind, nodes, excluded)) continue;
    // What a stop rules out is not preferred, and rightly: only where it always is, the preference is idle.
    if (excluded && isCovered(subject, preferring, [other]) !== true) continue;
    const found = existence(
      subject,
      subject.all([subject.applies(a), subject.applies(b)]),
      allApply(subject, [a, b]),
    );
    if (found === 'none') continue;
    const shown = found === 'some' ? seek(subject, allApply(subject, [a, b])) : found;
    if (shown === 'none') continue;
    const of = [preferring.rule.id, other.rule.id];
    yield {
      kind: 'preference-contradicted',
      of,
      place: placeOf(subject, preferring),
      ...certainty(
        shown,
        subject,
        of.map((id) => `rules.${id}`),
      ),
    };
  }
}

/** No item is preferred by both; or none that the one prefers is left by the other. */
function conflict(
  subject: Subject,
  kind: string,
  [preferred, other]: readonly [Node | undefined, Node | undefined],
  excluded: boolean,
): boolean {
  const liked = subject.region(preferred, 'true', kind);
  const kept = subject.region(other, excluded ? 'not-true' : 'true', kind);
  if (liked === undefined || kept === undefined || liked.length === 0) return false;
  return !overlap(subject.alphabet(kind).layout, liked, kept);
}
