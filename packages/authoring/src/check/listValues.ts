import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { FactEntry } from './entries.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { fieldsOf } from './fields.ts';
import { shown } from './shapes.ts';

const KEYS = ['items', 'complete'] as const;

/** The entries of a list, field by field; `complete` says whether there may be others. */
export function checkEntries(
  at: Cursor,
  { id, entry }: FactEntry,
  context: Context,
  checkValue: (value: Cursor, field: FactEntry) => void,
): void {
  const { find, owner } = context;
  const fields = fieldsOf(entry);
  if (!at.isList && !at.isObject) {
    const message = `\`${id}\` in ${owner} is a list of entries`;
    find.report('wrong-shape', at, { message, expected: 'a list', received: shown(at.value) });
    return;
  }
  for (const key of at.keys) if (!KEYS.some((k) => k === key)) reportUnknownKey(at, key, KEYS, context);
  const items = at.isList ? at : at.at('items');
  if (!items.isList && !find.isMisspelt(at, 'items')) {
    const message = `\`${id}\` in ${owner} has no list of entries under \`items\``;
    const received = shown(items.value);
    find.report('wrong-shape', items.exists ? items : at, { message, expected: 'a list', received });
  }
  const complete = at.at('complete');
  if (complete.exists && typeof complete.value !== 'boolean') {
    const message = `\`complete\` of \`${id}\` in ${owner} must be \`true\` or \`false\``;
    find.report('wrong-shape', complete, { message, expected: 'a boolean', received: shown(complete.value) });
  }
  for (const item of items.items) {
    if (!item.isObject) {
      const message = `an entry of \`${id}\` in ${owner} must be an object of fields`;
      find.report('wrong-shape', item, { message, expected: 'an object', received: shown(item.value) });
    }
    for (const [name, value] of item.entries) {
      const field = fields.get(skeleton(name));
      if (field !== undefined) checkValue(value, field);
      else if (fields.size > 0)
        reportUnknownKey(
          item,
          name,
          [...fields.values()].map((f) => f.id),
          context,
        );
    }
  }
}
