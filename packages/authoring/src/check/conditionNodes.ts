import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { LEAF_KEYS } from './leaves.ts';
import { didYouMean } from './nearest.ts';
import { shown } from './shapes.ts';

/** What besides groups may stand in a condition, and who checks it. */
export interface Grammar {
  /** Keys that tell the nodes apart. */
  readonly kinds: readonly string[];
  /** Those of them that are compared with something. */
  readonly leaves: readonly string[];
  /** A node that is no group. */
  check(node: Cursor, kind: string): void;
}

/** Keys of other rule engines that an author may bring along, and why they are refused. */
const REFUSED: Readonly<Record<string, string>> = {
  path: 'a fact is one value and has no path into it',
  params: 'a fact takes no parameters, so name another fact',
  priority: 'every condition is evaluated, so none has a priority',
  name: 'a condition has no name of its own, so use a named condition',
};

/** Checks a condition and everything below it; the node's one key is found first, then that shape is checked. */
export function checkNodes(node: Cursor, grammar: Grammar, context: Context): void {
  const { find, owner } = context;
  if (!node.isObject) {
    const message = `a condition of ${owner} must be an object with one of ${quoted(grammar.kinds)}`;
    const expected = grammar.kinds.join(', ');
    find.report('wrong-shape', node, { message, expected, received: shown(node.value) });
    return;
  }
  for (const key of node.keys) {
    const reason = REFUSED[key];
    if (reason === undefined) continue;
    find.report('refused-key', node.at(key), {
      part: 'key',
      message: `\`${key}\` in ${owner} is refused: ${reason}`,
    });
  }
  const kinds = grammar.kinds.filter((kind) => node.has(kind));
  const [kind, second] = kinds;
  if (kind === undefined) reportNoKind(node, grammar.kinds, context);
  else if (second !== undefined) {
    const message = `a condition of ${owner} has both \`${kind}\` and \`${second}\`, so its meaning is open`;
    const later = node.keys.filter((key) => kinds.some((k) => k === key))[1] ?? second;
    find.report('two-keys-in-node', node.at(later), { part: 'key', message, expected: 'one key' });
  } else checkNode(node, kind, grammar, context);
}

function checkNode(node: Cursor, kind: string, grammar: Grammar, context: Context): void {
  const allowed = grammar.leaves.includes(kind) ? [kind, ...LEAF_KEYS] : [kind];
  const unknown = node.keys.filter((key) => !allowed.includes(key) && !Object.hasOwn(REFUSED, key));
  for (const key of unknown) reportUnknownKey(node, key, allowed, context);
  if (kind === 'not') checkNodes(node.at(kind), grammar, context);
  else if (kind === 'all' || kind === 'any') checkGroup(node.at(kind), kind, grammar, context);
  else grammar.check(node, kind);
}

function checkGroup(body: Cursor, kind: string, grammar: Grammar, context: Context): void {
  const { find, owner } = context;
  if (!body.isList) {
    const message = `\`${kind}\` in ${owner} must be a list of conditions`;
    find.report('wrong-shape', body, { message, expected: 'a list', received: shown(body.value) });
  } else if (body.items.length === 0) {
    const message = `\`${kind}\` in ${owner} is empty, so it would always be the same`;
    find.report('empty-group', body, { message, expected: 'at least one condition' });
  }
  for (const item of body.items) checkNodes(item, grammar, context);
}

/** A node without any key that tells its kind: a misspelt one, or something else altogether. */
function reportNoKind(node: Cursor, kinds: readonly string[], context: Context): void {
  const candidates = node.keys.filter(
    (key) => !LEAF_KEYS.some((k) => k === key) && !Object.hasOwn(REFUSED, key),
  );
  const misspelt = candidates.find((key) => didYouMean(key, kinds).hint !== undefined);
  if (misspelt !== undefined) {
    reportUnknownKey(node, misspelt, kinds, context);
    return;
  }
  if (candidates.length === 0 && node.keys.some((key) => Object.hasOwn(REFUSED, key))) return;
  context.find.report('wrong-shape', node, {
    message: `a condition of ${context.owner} has none of ${quoted(kinds)}`,
    expected: kinds.join(', '),
    received: node.keys.join(', ') || 'an empty object',
  });
}

const quoted = (words: readonly string[]): string => words.map((word) => `\`${word}\``).join(', ');
