import type { Parts } from '../build/parts.ts';
import type { Change } from '../documents/amendment.ts';
import type { Refusals } from './refusals.ts';
import { add, addText, raise, replace, restock, reword, switchOff } from './ruleChanges.ts';
import { type RecordedChange, type RuleChange, Workpiece } from './workpiece.ts';

export interface Changed {
  readonly parts: Parts;
  readonly changes: readonly RuleChange[];
  readonly recorded: readonly RecordedChange[];
}

/** Applies every change to rules and stock in turn; what may not be is refused and left out. */
export function changeRules(
  base: Parts,
  changes: readonly Change[],
  pointer: string,
  refusals: Refusals,
): Changed {
  const work = new Workpiece(base, refusals);
  changes.forEach((change, index) => {
    const at = `${pointer}/changes/${index}`;
    if ('switchOff' in change) switchOff(work, change, at);
    else if ('replace' in change) replace(work, change, at);
    else if ('reword' in change) reword(work, change, at);
    else if ('add' in change) add(work, change, at);
    else if ('addText' in change) addText(work, change, at);
    else if ('raise' in change) raise(work, change, at);
    else if ('stock' in change) restock(work, change, at);
  });
  const { rules, stock, done, recorded } = work;
  return { parts: { ...base, rules, stock }, changes: done, recorded };
}
