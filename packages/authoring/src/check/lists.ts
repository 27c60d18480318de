import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import type { FactEntry } from './entries.ts';
import { checkField, checkFieldCycles, fieldNamed, fieldsOf } from './fields.ts';

/** Fields of time that each kind of list has. */
const TIMES: Readonly<Record<string, number>> = { events: 1, measured: 2, things: 0 };
const MOST_FIELDS = 8;

/** A list: how its entries lie in time, and fields that fit. */
export function checkList({ entry }: FactEntry, context: Context): void {
  const { find, owner } = context;
  const fields = fieldsOf(entry);
  for (const key of ['kind', 'item']) {
    if (entry.has(key) || find.isMisspelt(entry, key)) continue;
    const message = `${owner} is a list and needs the key \`${key}\``;
    find.report('missing-key', entry, { message, expected: key });
  }
  if (entry.has('from')) {
    const message = `${owner} is a list, and a list follows from nothing`;
    const hint = 'give its fields a `from`, or read it by the facts that count, sum or choose its entries';
    find.report('fact-key-not-fit', entry.at('from'), { part: 'key', message, hint });
  }
  const item = entry.at('item');
  if (item.isObject && (fields.size === 0 || fields.size > MOST_FIELDS)) {
    const message = `the entries of ${owner} have ${fields.size} fields, not 1 to ${MOST_FIELDS}`;
    const expected = `1 to ${MOST_FIELDS} fields`;
    find.report('wrong-shape', item, { message, expected, received: `${fields.size} fields` });
  }
  checkTimes(entry, fields, context);
  for (const field of fields.values()) checkField(field, fields, context);
  checkFieldCycles(fields, context);
}

function checkTimes(entry: Cursor, fields: ReadonlyMap<string, FactEntry>, context: Context): void {
  const { find, owner } = context;
  const at = entry.at('at');
  const wanted = TIMES[entry.at('kind').text ?? ''];
  const times = at.items;
  if (wanted !== undefined && times.length !== wanted && !find.isMisspelt(entry, 'at')) {
    const message = `${owner} names ${times.length} fields of time, but its kind has ${wanted}`;
    const received = String(times.length);
    const where = at.exists ? at : entry.at('kind');
    find.report('wrong-shape', where, { message, expected: String(wanted), received });
    return;
  }
  times.forEach((time, index) => {
    const field = fieldNamed(time, fields, context);
    if (index > 0 && time.text !== undefined && time.text === times[0]?.text) {
      const message = `${owner} starts and ends its entries by the same field \`${time.text}\``;
      find.report('wrong-shape', time, { message, expected: 'another field' });
    } else if (field?.type !== undefined && field.type !== 'date-time') {
      const message = `the field \`${field.id}\` of ${owner} is of type ${field.type}, but a time is a date-time`;
      const received = field.type;
      find.report('derivation-wrong-type', time, { message, expected: 'date-time', received });
    }
  });
}
