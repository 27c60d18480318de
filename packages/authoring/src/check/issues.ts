import type { z } from 'zod';
import { pointerOf } from '../parse/pointer.ts';
import type { Cursor } from './cursor.ts';
import type { Findings } from './findings.ts';
import { didYouMean, nearest } from './nearest.ts';
import { keysAt } from './schemaKeys.ts';
import { reportShape, termOf } from './shapes.ts';

type Issue = z.core.$ZodIssue;

export const issuesOf = (schema: z.ZodType, value: unknown): readonly Issue[] =>
  schema.safeParse(value).error?.issues.flatMap(openUnion) ?? [];

/** Of a union, the issues of the branch that the author most likely meant; a union of plain values stays whole. */
function openUnion(issue: Issue): readonly Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const meant = issue.errors
    .map((branch) => branch.flatMap(openUnion))
    .filter(
      (branch) => branch.length > 0 && !branch.some((i) => i.path.length === 0 && i.code === 'invalid_type'),
    )
    .sort((a, b) => a.length - b.length)[0];
  if (meant === undefined || meant.every((i) => i.path.length === 0 && i.code === 'invalid_value'))
    return [issue];
  return meant.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }));
}

/**
 * Turns what the schema says about a value into diagnostics; what stands below `own`, and evidence that rests on an
 * empty list, is left to the check, which can say more.
 */
export function reportIssues(
  issues: readonly Issue[],
  root: Cursor,
  schema: z.ZodType,
  own: RegExp | undefined,
  find: Findings,
): void {
  const mine = issues.filter((issue) => own === undefined || !isOwn(issue, own));
  reportUnknownKeys(mine, root, schema, find);
  for (const issue of mine) {
    if (issue.code === 'unrecognized_keys' || (issue.code === 'too_small' && issue.path.at(-1) === 'from'))
      continue;
    const at = cursorAt(root, issue.path);
    const name = String(issue.path.at(-1) ?? '');
    if (issue.code === 'invalid_key') {
      const expected = termOf(issue)?.[1] ?? 'an id';
      find.report('id-grammar', at, {
        part: 'key',
        message: `\`${name}\` breaks the grammar of ids`,
        expected,
        received: name,
      });
    } else if (!at.exists && issue.path.length > 0) {
      const parent = cursorAt(root, issue.path.slice(0, -1));
      if (find.isMisspelt(parent, name)) continue;
      find.report('missing-key', parent, { message: `the key \`${name}\` is missing`, expected: name });
    } else reportShape(issue, at, name, find);
  }
}

/** Maps whose keys name facts or stock lists: the check knows which there are, and says so better than a grammar. */
const NAMING = new Set<PropertyKey>(['facts', 'chosen', 'set']);

export function isOwn({ code, path }: Issue, own: RegExp): boolean {
  if (code === 'invalid_key' && !NAMING.has(path.at(-2) ?? '')) return false;
  return path.some((_, index) => own.test(pointerOf(path.slice(0, index + 1))));
}

function cursorAt(root: Cursor, path: readonly PropertyKey[]): Cursor {
  return path.reduce<Cursor>(
    (at, key) => (typeof key === 'number' ? (at.items[key] ?? at.at(String(key))) : at.at(String(key))),
    root,
  );
}

/** A misspelt key is both unknown and missing: it is noted, so that only the one is reported. */
function reportUnknownKeys(issues: readonly Issue[], root: Cursor, schema: z.ZodType, find: Findings): void {
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue;
    const parent = cursorAt(root, issue.path);
    const open = keysAt(schema, issue.path).filter((key) => !parent.has(key));
    for (const key of issue.keys) {
      const meant = nearest(key, open);
      if (meant !== undefined) find.noteMisspelt(parent, meant);
      find.report('unknown-key', parent.at(key), {
        part: 'key',
        message: `the key \`${key}\` is not known here`,
        received: key,
        ...(open.length > 0 && { expected: open.join(', ') }),
        ...didYouMean(key, open),
      });
    }
  }
}
