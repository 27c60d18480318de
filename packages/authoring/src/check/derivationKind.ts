import type { z } from 'zod';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { isOwn, issuesOf, reportIssues } from './issues.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';

/**
 * The one kind of derivation that a `from` names, of those that may stand there, once its structure is right; nothing
 * where it is not, which is then reported. `own` are places below it that are checked elsewhere.
 */
export function kindIn<K extends string>(
  from: Cursor,
  schemas: Readonly<Record<K, z.ZodType>>,
  own: RegExp | undefined,
  context: Context,
): K | undefined {
  const { find, owner } = context;
  const known = Object.keys(schemas) as K[];
  if (!from.isObject) {
    const message = `\`from\` of ${owner} must be an object with one kind of derivation`;
    find.report('wrong-shape', from, { message, expected: known.join(', '), received: shown(from.value) });
    return undefined;
  }
  const kinds = known.filter((kind) => from.has(kind));
  const [kind, second] = kinds;
  if (kind === undefined) {
    reportUnknown(from, known, context);
    return undefined;
  }
  if (second !== undefined) {
    const later = from.keys.filter((key) => kinds.some((k) => k === key))[1] ?? second;
    const message = `${owner} is derived in two ways, \`${kind}\` and \`${second}\``;
    find.report('two-keys-in-node', from.at(later), { part: 'key', message, expected: 'one key' });
    return undefined;
  }
  for (const key of from.keys) if (key !== kind) reportUnknownKey(from, key, [kind], context);
  return isWhole(from, kind, schemas[kind], own, known, context) ? kind : undefined;
}

function isWhole(
  from: Cursor,
  kind: string,
  schema: z.ZodType,
  own: RegExp | undefined,
  known: readonly string[],
  { find, owner }: Context,
): boolean {
  const body = from.at(kind);
  const nested = nestedIn(body, known);
  if (nested !== undefined) {
    const message = `a derivation stands inside \`${kind}\` of ${owner}`;
    const hint = 'give the inner derivation a fact of its own and name that fact';
    find.report('derivation-nested', nested, { part: 'key', message, hint });
    return false;
  }
  const issues = issuesOf(schema, { [kind]: body.value });
  reportIssues(issues, from, schema, own, find);
  return issues.every((issue) => own !== undefined && isOwn(issue, own));
}

/** Parts of an aggregate that are no operands: a window may count its `newest` entries. */
const NO_OPERANDS = ['where', 'within'];

/** An operand that is itself a derivation. */
function nestedIn(body: Cursor, known: readonly string[]): Cursor | undefined {
  const named = body.entries.filter(([key]) => !NO_OPERANDS.includes(key)).map(([, value]) => value);
  for (const part of [...body.items, ...named]) {
    const kind = known.find((name) => part.has(name));
    if (kind !== undefined) return part.at(kind);
  }
  return undefined;
}

function reportUnknown(from: Cursor, known: readonly string[], { find, owner }: Context): void {
  const key = from.keys[0];
  if (key === undefined) {
    const message = `\`from\` of ${owner} names no kind of derivation`;
    find.report('unknown-derivation', from, { message, expected: known.join(', ') });
    return;
  }
  const message = `${owner} is derived by \`${key}\`, which is no kind that may stand here`;
  find.report('unknown-derivation', from.at(key), {
    part: 'key',
    message,
    expected: known.join(', '),
    received: key,
    ...didYouMean(key, known),
  });
}
