import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { reportUnknownKey } from './entryKeys.ts';
import { checkLeaf, LEAF_KEYS, reportOptionFact } from './leaves.ts';
import { didYouMean } from './nearest.ts';
import { addConditionReferences, noReferences } from './references.ts';
import { shown } from './shapes.ts';

const KINDS = ['all', 'any', 'not', 'condition', 'fact', 'parameter'] as const;

/** Keys of other rule engines that an author may bring along, and why they are refused. */
const REFUSED: Readonly<Record<string, string>> = {
  path: 'a fact is one value and has no path into it',
  params: 'a fact takes no parameters, so name another fact',
  priority: 'every condition is evaluated, so none has a priority',
  name: 'a condition has no name of its own, so use a named condition',
};

/** Checks one condition and everything below it; the node's one key is found first, then that shape is checked. */
export function checkCondition(node: Cursor, context: Context, options: 'patient' | 'options'): void {
  const { find, owner } = context;
  if (!node.isObject) {
    const message = `a condition of ${owner} must be an object with one of ${quoted(KINDS)}`;
    find.report('wrong-shape', node, { message, expected: KINDS.join(', '), received: shown(node.value) });
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
  const kinds = KINDS.filter((kind) => node.has(kind));
  const [kind, second] = kinds;
  if (kind === undefined) reportNoKind(node, context);
  else if (second !== undefined) {
    const message = `a condition of ${owner} has both \`${kind}\` and \`${second}\`, so its meaning is open`;
    const later = node.keys.filter((key) => kinds.some((k) => k === key))[1] ?? second;
    find.report('two-keys-in-node', node.at(later), { part: 'key', message, expected: 'one key' });
  } else checkNode(node, kind, context, options);
}

function checkNode(
  node: Cursor,
  kind: (typeof KINDS)[number],
  context: Context,
  options: 'patient' | 'options',
): void {
  const isLeaf = kind === 'fact' || kind === 'parameter';
  const allowed: readonly string[] = isLeaf ? [kind, ...LEAF_KEYS] : [kind];
  const unknown = node.keys.filter((key) => !allowed.includes(key) && !Object.hasOwn(REFUSED, key));
  for (const key of unknown) reportUnknownKey(node, key, allowed, context);
  const body = node.at(kind);
  if (kind === 'not') checkCondition(body, context, options);
  else if (kind === 'condition') checkNamed(body, context, options);
  else if (isLeaf) checkLeaf(node, kind, context, options);
  else checkGroup(body, kind, context, options);
}

function checkGroup(body: Cursor, kind: string, context: Context, options: 'patient' | 'options'): void {
  const { find, owner } = context;
  if (!body.isList) {
    const message = `\`${kind}\` in ${owner} must be a list of conditions`;
    find.report('wrong-shape', body, { message, expected: 'a list', received: shown(body.value) });
  } else if (body.items.length === 0) {
    const message = `\`${kind}\` in ${owner} is empty, so it would always be the same`;
    find.report('empty-group', body, { message, expected: 'at least one condition' });
  }
  for (const item of body.items) checkCondition(item, context, options);
}

function checkNamed(body: Cursor, context: Context, options: 'patient' | 'options'): void {
  const { find, owner, conditions } = context;
  const name = body.text;
  if (name === undefined) {
    const message = `\`condition\` in ${owner} must be the name of a condition of the set`;
    find.report('wrong-shape', body, { message, expected: 'a name', received: shown(body.value) });
    return;
  }
  if (!conditions.has(skeleton(name))) {
    const message = `${owner} uses the unknown condition \`${name}\``;
    find.report('unknown-condition', body, {
      message,
      received: name,
      ...didYouMean(name, conditions.keys()),
    });
  } else if (options === 'patient' && readsOptions(skeleton(name), context)) {
    reportOptionFact(body, context, `the condition \`${name}\` reads options`);
  }
}

/** Whether a named condition reads options, itself or through others. */
function readsOptions(name: string, { conditions, ofOptions }: Context): boolean {
  const reached = noReferences();
  reached.conditions.add(name);
  for (const next of reached.conditions) {
    const node = conditions.get(next);
    if (node) addConditionReferences(node, reached);
  }
  return [...reached.facts].some((id) => ofOptions.has(id));
}

/** A node without any key that tells its kind: a misspelt one, or something else altogether. */
function reportNoKind(node: Cursor, context: Context): void {
  const candidates = node.keys.filter(
    (key) => !LEAF_KEYS.some((k) => k === key) && !Object.hasOwn(REFUSED, key),
  );
  const misspelt = candidates.find((key) => didYouMean(key, KINDS).hint !== undefined);
  if (misspelt !== undefined) {
    reportUnknownKey(node, misspelt, KINDS, context);
    return;
  }
  if (candidates.length === 0 && node.keys.some((key) => Object.hasOwn(REFUSED, key))) return;
  context.find.report('wrong-shape', node, {
    message: `a condition of ${context.owner} has none of ${quoted(KINDS)}`,
    expected: KINDS.join(', '),
    received: node.keys.join(', ') || 'an empty object',
  });
}

const quoted = (words: readonly string[]): string => words.map((word) => `\`${word}\``).join(', ');
