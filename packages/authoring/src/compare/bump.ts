import type { Bump, BumpReason, ItemChange, OutcomeChange } from './shape.ts';

/**
 * How far the version must move: a change of when advice appears is major, an addition minor, wording patch. What
 * decides and reads otherwise counts as major even where no case was found: a comparison that runs cases cannot
 * prove that none exists.
 */
export function bumpOf(
  items: readonly ItemChange[],
  outcomes: readonly OutcomeChange[],
): { readonly bump: Bump; readonly reasons: readonly BumpReason[] } {
  const named = (kind: ItemChange['kind'], change: ItemChange['change']): string[] =>
    items.filter((item) => item.kind === kind && item.change === change).map(({ id }) => id);
  const added = named('rule', 'added');
  const removed = named('rule', 'removed');
  const shown = [...new Set(outcomes.map(({ subject }) => subject))].filter(
    (subject) => !added.includes(subject) && !removed.includes(subject),
  );
  // Words and codes that only a new rule brings along are part of its addition.
  const logic = items.filter(({ change, fields }) => change === 'changed' && fields.some((f) => !f.wording));
  const wording = items.filter((item) => item.change === 'changed' && !logic.includes(item));
  const brought = items.filter(
    ({ kind, change }) => change !== 'changed' && kind !== 'rule' && kind !== 'stock',
  );
  const unshown = shown.length > 0 ? [] : logic.map(({ kind, id }) => `${kind} ${id}`);
  const reason = (bump: BumpReason['bump'], why: BumpReason['why'], of: readonly string[]): BumpReason[] =>
    of.length === 0 ? [] : [{ bump, why, items: of }];
  const reasons = [
    ...reason('major', 'outcome-changed', shown),
    ...reason('major', 'rule-removed', removed),
    ...reason('major', 'option-removed', named('stock', 'removed')),
    ...reason('major', 'logic-changed-unshown', unshown),
    ...reason('minor', 'rule-added', added),
    ...reason('minor', 'option-added', named('stock', 'added')),
    ...reason(
      'patch',
      'wording',
      [...wording, ...brought].map(({ kind, id }) => `${kind} ${id}`),
    ),
  ];
  return { bump: reasons[0]?.bump ?? 'none', reasons };
}
