import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';
import { checkListName } from './typeKeys.ts';

/** The shared code lists: those that hospitals may add to must be lists. */
export function checkCodeLists(root: Cursor, find: Findings): void {
  for (const at of root.at('extensible').items) {
    checkListName(at, '`extensible`', root.at('lists').keys, { find });
  }
}
