import type { AmendmentDocument, Change, Diagnostic } from '@dwellset/authoring';

/** What a change of an amendment is about, as the draft names it. */
function itemOf(change: Change): string {
  if ('set' in change) return Object.keys(change.set).join(', ');
  if ('switchOff' in change) return change.switchOff;
  if ('replace' in change) return change.replace.id;
  if ('reword' in change) return change.reword.rule;
  if ('add' in change) return change.add.id;
  if ('addText' in change) return change.addText.rule;
  if ('raise' in change) return change.raise.rule;
  return change.stock.of;
}

export interface Refusal {
  readonly diagnostic: Diagnostic;
  readonly set?: string;
  readonly item?: string;
  /** Pointer within the rule, where a whole rule is stated. */
  readonly within?: string;
}

/** Finds for each refusal of the amendment the rule or choice that it is about. */
export function refusalsIn(
  amendment: AmendmentDocument | undefined,
  found: readonly Diagnostic[],
): Refusal[] {
  return found.map((diagnostic) => {
    const [, at, change, rest] = /^\/amends\/(\d+)(?:\/changes\/(\d+)(.*))?/.exec(diagnostic.pointer) ?? [];
    const entry = at === undefined ? undefined : amendment?.amends[Number(at)];
    const one = change === undefined ? undefined : entry?.changes[Number(change)];
    if (!entry) return { diagnostic };
    if (!one) return { diagnostic, set: entry.set };
    const within = /^\/(?:replace|add)(.*)$/.exec(rest ?? '')?.[1];
    return { diagnostic, set: entry.set, item: itemOf(one), ...(within !== undefined && { within }) };
  });
}
