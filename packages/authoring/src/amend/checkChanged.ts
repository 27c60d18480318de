import type { Rule } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import { usedByRule } from '../build/used.ts';
import type { Refusals } from './refusals.ts';
import type { RuleChange } from './workpiece.ts';

/** What a changed rule refers to must be there: in the policy, or in the amendment itself. */
export function checkChanged(parts: Parts, changes: readonly RuleChange[], refusals: Refusals): void {
  for (const { kind, rule: id, pointer } of changes) {
    const rule = parts.rules.find((other) => other.id === id);
    if (rule === undefined || kind === 'switchOff' || kind === 'raise') continue;
    for (const unknown of unknownIn(parts, rule)) {
      refusals.add(
        pointer,
        `unknown-${unknown.kind.replace(' ', '-')}`,
        `\`${id}\` refers to the ${unknown.kind} \`${unknown.id}\`, which nobody defines`,
      );
    }
  }
}

function unknownIn(parts: Parts, rule: Rule): readonly { readonly kind: string; readonly id: string }[] {
  const { ruleSet, rules, evidence, hazards, stock } = parts;
  const among = (kind: string, ids: readonly string[], known: (id: string) => boolean) =>
    ids.filter((id) => !known(id)).map((id) => ({ kind, id }));
  const conclusions = [
    ...(ruleSet.conclusions ?? []),
    ...(ruleSet.defaultConclusion ? [ruleSet.defaultConclusion] : []),
  ];
  return [
    ...usedByRule(parts, rule).missing,
    ...among('evidence', rule.evidence, (id) => evidence.has(id)),
    ...among('hazard', rule.hazards ?? [], (id) => hazards.has(id)),
    ...among('rule', rule.supersedes ?? [], (id) => rules.some((other) => other.id === id)),
    ...among('conclusion', rule.concludes ? [rule.concludes] : [], (id) =>
      conclusions.some((c) => c.id === id),
    ),
    ...among('stock list', rule.of ? [rule.of] : [], (id) => stock[id] !== undefined),
  ];
}
