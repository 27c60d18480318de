import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { type References, reachedFrom } from './references.ts';

/** Comparisons that hold of the least of nothing, which is more than any number, and of the greatest, which is less. */
const HELD_BY_NONE: Readonly<Record<string, readonly string[]>> = {
  least: ['greaterThan', 'greaterThanInclusive', 'after', 'notEqual'],
  greatest: ['lessThan', 'lessThanInclusive', 'before', 'notEqual'],
};
const OPPOSITE: Readonly<Record<string, string>> = {
  greaterThan: 'lessThanInclusive',
  greaterThanInclusive: 'lessThan',
  lessThan: 'greaterThanInclusive',
  lessThanInclusive: 'greaterThan',
  before: 'greaterThanInclusive',
  after: 'lessThanInclusive',
  equal: 'notEqual',
  notEqual: 'equal',
};

/**
 * "Every entry is at least so much" holds of no entries at all. Where a condition asks that without asking how many
 * there are, it would take an empty list for a good one.
 */
export function checkEmptyLists(condition: Cursor, context: Context): void {
  const counted = listsCounted(reachedFrom([condition], context.conditions, context.facts), context);
  walk(condition, condition, false, [], counted, context);
}

/** `at`: the token of the rule through which a node is reached. */
function walk(
  node: Cursor,
  at: Cursor,
  negated: boolean,
  trail: readonly string[],
  counted: ReadonlySet<string>,
  context: Context,
): void {
  const within = (part: Cursor): Cursor => (trail.length === 0 ? part : at);
  for (const item of [...node.at('all').items, ...node.at('any').items])
    walk(item, within(item), negated, trail, counted, context);
  if (node.has('not')) walk(node.at('not'), within(node.at('not')), !negated, trail, counted, context);
  const name = skeleton(node.at('condition').text ?? '');
  const named = context.conditions.get(name);
  if (named !== undefined && !trail.includes(name))
    walk(named, within(node.at('condition')), negated, [...trail, name], counted, context);
  if (node.at('fact').text !== undefined) checkLeaf(node, within(node.at('fact')), negated, counted, context);
}

function checkLeaf(
  node: Cursor,
  at: Cursor,
  negated: boolean,
  counted: ReadonlySet<string>,
  { find, owner, facts }: Context,
): void {
  const id = node.at('fact').text ?? '';
  const from = facts.get(skeleton(id))?.entry.at('from');
  const said = node.at('operator').text ?? '';
  const operator = negated ? (OPPOSITE[said] ?? '') : said;
  for (const [kind, operators] of Object.entries(HELD_BY_NONE)) {
    const list = from?.at(kind).at('of').text;
    if (list === undefined || !operators.includes(operator) || counted.has(skeleton(list))) continue;
    find.report('empty-list-vacuous', at, {
      message: `\`${id}\` in ${owner} is the ${kind} of \`${list}\` and also passes where that list has no entries`,
      hint: `ask beside it for a count of \`${list}\``,
    });
  }
}

/** Lists of which the condition also reads how many entries there are. */
function listsCounted({ facts: reached }: References, { facts }: Context): ReadonlySet<string> {
  const lists = [...reached].flatMap((id) => facts.get(id)?.entry.at('from').at('count').at('of').text ?? []);
  return new Set(lists.map(skeleton));
}
