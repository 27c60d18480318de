import type { Condition, FactLeaf, ParameterLeaf } from '@dwellset/core';
import { type Described, leafEdits } from './leafEdits.ts';
import type { MistakeKind } from './shape.ts';

/** One condition with a mistake in it. */
export interface Edit {
  readonly kind: MistakeKind;
  /** Keys from the top of the condition to what was changed. */
  readonly at: readonly (string | number)[];
  readonly before: Condition;
  readonly after?: Condition;
  /** The condition as a whole, with the mistake. */
  readonly whole: Condition;
}

/** What is compared in a leaf. */
export type Describe = (leaf: FactLeaf | ParameterLeaf) => Described | undefined;

/**
 * Every mistake of one place in a condition: a comparison that is more or less strict or says the opposite, a limit one
 * step off, a code left out or taken for another, `all` for `any`, a member left out, a `not` forgotten or one too many.
 */
export function editsOf(condition: Condition, describe: Describe): Edit[] {
  if ('all' in condition) return groupEdits('all', condition.all, describe);
  if ('any' in condition) return groupEdits('any', condition.any, describe);
  if ('not' in condition) {
    const inner = editsOf(condition.not, describe).map((edit) => ({
      ...edit,
      at: ['not', ...edit.at],
      whole: { not: edit.whole },
    }));
    const forgotten = { before: condition, after: condition.not, whole: condition.not };
    return [{ kind: 'turned-round', at: [], ...forgotten }, ...inner];
  }
  const replaced = (kind: MistakeKind, after: Condition): Edit => ({
    kind,
    at: [],
    before: condition,
    after,
    whole: after,
  });
  if ('condition' in condition) return [replaced('turned-round', { not: condition })];
  const described = describe(condition);
  return described === undefined
    ? []
    : leafEdits(condition, described).map(({ kind, after }) => replaced(kind, after));
}

function groupEdits(key: 'all' | 'any', members: readonly Condition[], describe: Describe): Edit[] {
  const made = (of: readonly Condition[]): Condition => (key === 'all' ? { all: of } : { any: of });
  const inner = members.flatMap((member, index) =>
    editsOf(member, describe).map((edit): Edit => {
      const of = members.map((other, place) => (place === index ? edit.whole : other));
      return { ...edit, at: [key, index, ...edit.at], whole: made(of) };
    }),
  );
  if (members.length < 2) return inner;
  const other: Condition = key === 'all' ? { any: members } : { all: members };
  const swapped: Edit = { kind: 'group', at: [], before: made(members), after: other, whole: other };
  const leftOut = members.map(
    (member, index): Edit => ({
      kind: 'left-out',
      at: [key, index],
      before: member,
      whole: made(members.filter((_, place) => place !== index)),
    }),
  );
  return [swapped, ...leftOut, ...inner];
}
