import { compile, type Plan, PlanError } from '@dwellset/core';
import { gatherWithRead } from '../build/gather.ts';
import { partsOf } from '../build/parts.ts';
import type { Library, LibrarySet } from '../library/shape.ts';

/** The published set as if one of its rules had never been written; nothing where it does not run so. */
export function planWithout(library: Library, set: LibrarySet, off: string): Plan | undefined {
  const parts = partsOf(library, set);
  const rules = parts.rules
    .filter(({ id }) => id !== off)
    .map((rule) =>
      rule.supersedes ? { ...rule, supersedes: rule.supersedes.filter((id) => id !== off) } : rule,
    );
  const releases = gatherWithRead({ ...parts, rules });
  if (releases === undefined) return undefined;
  try {
    return compile(releases, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });
  } catch (error) {
    if (error instanceof PlanError) return undefined;
    throw error;
  }
}
