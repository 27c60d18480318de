import { checkNodes } from './conditionNodes.ts';
import { skeleton } from './confusables.ts';
import type { Context } from './context.ts';
import type { Cursor } from './cursor.ts';
import { checkLeaf, reportOptionFact } from './leaves.ts';
import { didYouMean } from './nearest.ts';
import { addConditionReferences, noReferences } from './references.ts';
import { shown } from './shapes.ts';

const KINDS = ['all', 'any', 'not', 'condition', 'fact', 'parameter'];

/** Checks one condition of a rule or a set, and everything below it. */
export function checkCondition(node: Cursor, context: Context, options: 'patient' | 'options'): void {
  const check = (one: Cursor, kind: string): void => {
    if (kind === 'fact' || kind === 'parameter') checkLeaf(one, kind, context, options);
    else checkNamed(one.at(kind), context, options);
  };
  checkNodes(node, { kinds: KINDS, leaves: ['fact', 'parameter'], check }, context);
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
