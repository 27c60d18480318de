import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { nearest } from './nearest.ts';

/** Reports a key that is not part of an entry, with the key that was meant if one is near. */
export function reportUnknownKey(
  parent: Cursor,
  key: string,
  allowed: readonly string[],
  { find, owner }: Pick<Context, 'find' | 'owner'>,
): void {
  const meant = nearest(
    key,
    allowed.filter((other) => !parent.has(other)),
  );
  if (meant !== undefined) find.noteMisspelt(parent, meant);
  find.report('unknown-key', parent.at(key), {
    part: 'key',
    message: `the key \`${key}\` in ${owner} is not known here`,
    expected: allowed.join(', '),
    received: key,
    ...(meant !== undefined && { hint: `did you mean \`${meant}\`` }),
  });
}
