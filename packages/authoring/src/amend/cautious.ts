import type { CautiousSide, CellValue, Constant } from '@dwellset/core';

export type ChoiceValue = Constant | CellValue;

/**
 * Whether going from one value to the other stays on the cautious side. Numbers by size; `true` is higher than
 * `false`; a list of codes is higher than every part of it. Single codes and missing entries have no side.
 */
export function staysCautious(side: CautiousSide, from: ChoiceValue, to: ChoiceValue): boolean {
  if (JSON.stringify(from) === JSON.stringify(to)) return true;
  if (side === 'neither') return false;
  const [low, high] = side === 'higher' ? [from, to] : [to, from];
  if (typeof low === 'number' && typeof high === 'number') return low <= high;
  if (typeof low === 'boolean' && typeof high === 'boolean') return !low || high;
  if (Array.isArray(low) && Array.isArray(high)) return low.every((code: string) => high.includes(code));
  return false;
}

/** A value as the record of an amendment states it. */
export function valueText(value: ChoiceValue): string {
  if (value === null) return 'no entry';
  return typeof value === 'object' ? value.join(', ') : String(value);
}
