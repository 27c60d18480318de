import type { Change } from '@dwellset/authoring';
import { canonicalJson, INDICATORS, type Indicator, type Rule } from '@dwellset/core';
import type { RuleEdit } from './draft.ts';
import { readRule } from './ruleText.ts';

/** Whatever the order of the keys: it says nothing in a rule. */
const same = (a: unknown, b: unknown): boolean => canonicalJson(a ?? null) === canonicalJson(b ?? null);
const lines = (detail: string | readonly string[] | undefined): readonly string[] =>
  typeof detail === 'string' ? [detail] : (detail ?? []);

/** The rule without what a rewording may touch. */
function logic({ title: _, because: __, note: ___, ...rule }: Rule): unknown {
  if (!rule.advice) return rule;
  const { summary: _s, detail: _d, ...advice } = rule.advice;
  return { ...rule, advice };
}

function rewording(base: Rule, rule: Rule): Record<string, unknown> | undefined {
  if (!same(logic(base), logic(rule))) return undefined;
  // A detail that was taken out is more than other words.
  if (base.advice?.detail !== undefined && rule.advice?.detail === undefined) return undefined;
  return {
    rule: base.id,
    ...(base.title !== rule.title && { title: rule.title }),
    ...(base.advice?.summary !== rule.advice?.summary && { summary: rule.advice?.summary }),
    ...(!same(base.advice?.detail, rule.advice?.detail) && { detail: rule.advice?.detail }),
    ...(base.because !== rule.because && { because: rule.because }),
  };
}

/** The rule without what it may gain. */
function withoutGains({ note: _, ...rule }: Rule): unknown {
  if (!rule.advice) return rule;
  const { detail: _d, indicator: _i, ...advice } = rule.advice;
  return { ...rule, advice };
}

/** What a rule gains, a locked one too: lines at the end of its detail, and a higher urgency. */
function gains(base: Rule, rule: Rule, reason: string): Change[] {
  const [before, after] = [lines(base.advice?.detail), lines(rule.advice?.detail)];
  const added = same(after.slice(0, before.length), before) ? after.slice(before.length) : [];
  const indicator = rule.advice?.indicator;
  const raised = base.advice && indicator && isAbove(indicator, base.advice.indicator);
  return [
    ...(added.length > 0 ? [{ addText: { rule: base.id, detail: added }, reason }] : []),
    ...(raised ? [{ raise: { rule: base.id, indicator }, reason }] : []),
  ] as Change[];
}

const isAbove = (one: Indicator, other: Indicator): boolean =>
  INDICATORS.indexOf(one) > INDICATORS.indexOf(other);

/** Whether it only gains, and nothing it had is lowered, reworded or taken away. */
function onlyGains(base: Rule, rule: Rule): boolean {
  if (!base.advice || !rule.advice || !same(withoutGains(base), withoutGains(rule))) return false;
  const [before, after] = [lines(base.advice.detail), lines(rule.advice.detail)];
  return (
    same(after.slice(0, before.length), before) && !isAbove(base.advice.indicator, rule.advice.indicator)
  );
}

/** The changes of an amendment that one edited rule comes to; none where nothing differs or nothing can be read. */
export function ruleChanges(id: string, base: Rule | undefined, edit: RuleEdit): Change[] {
  const { reason, added } = edit;
  const rule = edit.text === undefined ? undefined : readRule(edit.text).rule;
  if (added) {
    if (!rule) return [];
    const after = added.after === undefined ? {} : { after: added.after };
    return [{ add: { ...rule, id }, ...after, reason } as Change];
  }
  if (!base) return [];
  if (edit.off) return [{ switchOff: id, reason }];
  if (!rule || same(rule, base)) return [];
  if (base.locked || onlyGains(base, rule)) return gains(base, rule, reason);
  const reword = rewording(base, rule);
  // Notes are for authors: a change of a note alone changes nothing.
  if (reword && Object.keys(reword).length === 1) return [];
  return [(reword ? { reword, reason } : { replace: rule, reason }) as Change];
}
