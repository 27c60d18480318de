import { canonicalJson, INDICATORS, type Rule } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import type { Refusals } from './refusals.ts';
import type { RuleChange } from './workpiece.ts';

/**
 * What an amended set does to its locked rules as a whole, beyond each single change: none may be folded, none
 * may lose its conclusion, none may stand lower than before.
 */
export function protectLocked(
  base: Parts,
  amended: Parts,
  changes: readonly RuleChange[],
  refusals: Refusals,
): void {
  const locked = base.rules.filter((rule) => rule.locked);
  const pointerOf = (id: string) => changes.find(({ rule }) => rule === id)?.pointer ?? '';
  for (const rule of amended.rules) {
    for (const lost of locked) {
      if (folds(amended, rule.id, lost.id) && !folds(base, rule.id, lost.id)) {
        const message = `\`${rule.id}\` would fold the locked rule \`${lost.id}\``;
        refusals.add(pointerOf(culprit(amended, base, rule.id)), 'locked-folded', message);
      }
    }
  }
  for (const { kind, rule: id, pointer } of changes) {
    const rule = amended.rules.find((other) => other.id === id);
    const before = base.rules.find((other) => other.id === id);
    if (rule === undefined || rule.locked) continue;
    for (const other of locked) {
      if (kind === 'add' || (kind === 'replace' && !(before && firesAlike(before, rule)))) {
        outconcludes(amended, rule, other, pointer, refusals);
        outprefers(amended, rule, other, pointer, refusals);
      }
      const now = amended.rules.find(({ id: found }) => found === other.id) ?? other;
      if (standsAbove(amended, rule, now) && !(before && standsAbove(base, before, other))) {
        const message = `the advice of \`${id}\` would stand above that of the locked rule \`${other.id}\``;
        const hint = `give it a lower indicator, add it after \`${other.id}\`, or raise \`${other.id}\``;
        refusals.add(pointer, 'locked-outranked', message, { hint });
      }
    }
  }
}

/** Whether the one is superseded by the other, directly or through rules that supersede one another. */
function folds({ rules }: Parts, from: string, to: string): boolean {
  const below = new Set(rules.find(({ id }) => id === from)?.supersedes);
  for (const id of below)
    for (const next of rules.find((rule) => rule.id === id)?.supersedes ?? []) below.add(next);
  return below.has(to);
}

/** The rule whose changed list opens the way: itself, or the changed one further down. */
function culprit(amended: Parts, base: Parts, from: string): string {
  const listOf = ({ rules }: Parts, id: string) => rules.find((rule) => rule.id === id)?.supersedes;
  const way = new Set([from]);
  for (const id of way) {
    if (canonicalJson(listOf(amended, id) ?? []) !== canonicalJson(listOf(base, id) ?? [])) return id;
    for (const next of listOf(amended, id) ?? []) way.add(next);
  }
  return from;
}

/** Whether both apply in the same cases, and conclude and prefer the same. */
function firesAlike(a: Rule, b: Rule): boolean {
  const logic = ({ scope, when, expect, concludes, of, prefers, anyPopulation }: Rule) =>
    canonicalJson([scope, when, expect, concludes, of, prefers, anyPopulation].map((part) => part ?? null));
  return logic(a) === logic(b);
}

/** The strongest conclusion is given, so a new rule above a locked one would take its place. */
function outconcludes(
  { ruleSet }: Parts,
  rule: Rule,
  locked: Rule,
  pointer: string,
  refusals: Refusals,
): void {
  const order = (ruleSet.conclusions ?? []).map(({ id }) => id);
  const [own, its] = [order.indexOf(rule.concludes ?? ''), order.indexOf(locked.concludes ?? '')];
  if (own < 0 || its < 0 || own >= its) return;
  const message = `\`${rule.id}\` concludes \`${rule.concludes}\`, which would take the place of \`${locked.concludes}\` from the locked rule \`${locked.id}\``;
  refusals.add(pointer, 'locked-conclusion', message);
}

/** Preferences count in the order of the rules, so an earlier one overrules a locked one. */
function outprefers({ rules }: Parts, rule: Rule, locked: Rule, pointer: string, refusals: Refusals): void {
  if (!rule.prefers || !locked.prefers || rule.of !== locked.of) return;
  const place = (id: string) => rules.findIndex((other) => other.id === id);
  if (place(rule.id) > place(locked.id)) return;
  const message = `the preference of \`${rule.id}\` would count before that of the locked rule \`${locked.id}\``;
  refusals.add(pointer, 'locked-outranked', message, { hint: `add it after \`${locked.id}\`` });
}

/** Order of the page: locked critical, critical, warning, info; then the order of the rules. */
function standsAbove({ rules }: Parts, rule: Rule, locked: Rule): boolean {
  if (!rule.advice || !locked.advice || rule.local?.change === 'switched-off') return false;
  const place = ({ id, advice, locked: stop }: Rule): [number, number] => [
    stop && advice!.indicator === 'critical' ? INDICATORS.length : INDICATORS.indexOf(advice!.indicator),
    -rules.findIndex((other) => other.id === id),
  ];
  const [a, b] = [place(rule), place(locked)];
  return a[0] > b[0] || (a[0] === b[0] && a[1] > b[1]);
}
