import { skeleton } from './confusables.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';

/** Reports every id but the first of several that are equal. */
export function reportDuplicates(ids: readonly Cursor[], what: string, find: Findings): void {
  const first = new Map<string, Cursor>();
  for (const at of ids) {
    if (at.text === undefined) continue;
    const before = first.get(skeleton(at.text));
    if (before === undefined) {
      first.set(skeleton(at.text), at);
      continue;
    }
    const place = before.source.path === at.source.path ? '' : ` of \`${before.source.path}\``;
    const { line } = before.source.locate(before.pointer);
    const message = `\`${at.text}\` is already the id of ${what}, in line ${line}${place}`;
    find.report('duplicate-id', at, { message, received: at.text });
  }
}
