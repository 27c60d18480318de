import type { Release } from '@dwellset/core';
import type { Change } from '../documents/amendment.ts';
import type { RebasedChange } from './shape.ts';

/** One item that a change of an amendment touches. */
export type Piece = Pick<RebasedChange, 'kind' | 'item' | 'local' | 'reason' | 'pointer'>;

/** A change that sets several choices is one decision for each of them. */
export function piecesOf(change: Change, pointer: string): Piece[] {
  const { reason } = change;
  if ('set' in change) {
    return Object.entries(change.set).map(([item, local]) => ({
      kind: 'set',
      item,
      local,
      reason,
      pointer: `${pointer}/set/${item.replaceAll('/', '~1')}`,
    }));
  }
  const one = (kind: Piece['kind'], item: string, local?: unknown): Piece[] => [
    { kind, item, reason, pointer, ...(local !== undefined && { local }) },
  ];
  if ('switchOff' in change) return one('switchOff', change.switchOff);
  if ('replace' in change) return one('replace', change.replace.id, change.replace);
  if ('reword' in change) {
    const { rule, ...words } = change.reword;
    return one('reword', rule, words);
  }
  if ('add' in change) return one('add', change.add.id, change.add);
  if ('addText' in change) return one('addText', change.addText.rule, change.addText.detail);
  if ('raise' in change) return one('raise', change.raise.rule, change.raise.indicator);
  return one('stock', change.stock.of, change.stock.options);
}

/** What stands at an item in a release; nothing where it is not there. */
export function standsAt(
  { kind, item }: Pick<Piece, 'kind' | 'item'>,
  release: Release | undefined,
): unknown {
  if (release === undefined) return undefined;
  if (kind === 'stock') return release.stock[item];
  if (kind !== 'set') return release.rules.find(({ id }) => id === item);
  const [id, row, column] = item.split('/');
  if (row === undefined || column === undefined) {
    return release.parameters.find((parameter) => parameter.id === id)?.value;
  }
  return release.tables.find((table) => table.id === id)?.rows[row]?.[column]?.value;
}
