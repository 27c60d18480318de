import { type Constant, compile, type Plan, PlanError } from '@dwellset/core';
import { gatherWithRead } from '../build/gather.ts';
import { type Parts, partsOf } from '../build/parts.ts';
import type { Library, LibrarySet } from '../library/shape.ts';
import { conflictOf, same } from './choice.ts';
import type { SourceConflict } from './shape.ts';

/** The set, and those it reads, with another value of one local choice. */
function partsWith(library: Library, set: LibrarySet, choice: string, value: Constant): Parts {
  const parts = partsOf(library, set);
  const parameter = parts.parameters.get(choice);
  return {
    ...parts,
    parameters: parameter
      ? new Map([...parts.parameters, [choice, { ...parameter, value }]])
      : parts.parameters,
    others: (id) => {
      const other = library.sets.get(id);
      return other && { parts: partsWith(library, other, choice, value) };
    },
  };
}

/** Plans of sets with one choice moved; the same few serve many cases. */
export type Variants = Map<string, Plan | undefined>;

/**
 * Which local choices of a set, taken at another of their published positions, make an answer agree: there the
 * sources themselves disagree. Found by trying every position, one choice at a time.
 */
export function conflictsIn(
  library: Library,
  set: LibrarySet,
  plan: Plan,
  variants: Variants,
  agrees: (plan: Plan) => boolean,
): SourceConflict[] {
  const parameters = new Map(
    plan.sets.flatMap(({ release }) =>
      release.parameters.map((parameter) => [parameter.id, parameter] as const),
    ),
  );
  const planWith = (choice: string, value: Constant): Plan | undefined => {
    const name = JSON.stringify([set.id, choice, value]);
    if (!variants.has(name)) variants.set(name, compiled(partsWith(library, set, choice, value)));
    return variants.get(name);
  };
  return [...parameters.values()].flatMap((parameter) =>
    parameter.positions
      .filter(({ value }) => !same(value, parameter.value))
      .filter(({ value }) => {
        const other = planWith(parameter.id, value);
        return other !== undefined && agrees(other);
      })
      .map(({ value, evidence }) => conflictOf(parameter, parameter.value, value, evidence)),
  );
}

function compiled(parts: Parts): Plan | undefined {
  const releases = gatherWithRead(parts);
  if (releases === undefined) return undefined;
  try {
    return compile(releases, { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });
  } catch (error) {
    if (error instanceof PlanError) return undefined;
    throw error;
  }
}
