import { skeleton } from './confusables.ts';
import type { Cursor } from './cursor.ts';
import type { FactEntry } from './entries.ts';

/** What a condition or derivation refers to, itself or through what it names. */
export interface References {
  readonly facts: Set<string>;
  readonly parameters: Set<string>;
  readonly conditions: Set<string>;
}

export const noReferences = (): References => ({
  facts: new Set(),
  parameters: new Set(),
  conditions: new Set(),
});

/** Adds everything that a value names under `fact`, `parameter` and `condition`, whatever its shape. */
export function addConditionReferences(node: Cursor, into: References): void {
  for (const item of node.items) addConditionReferences(item, into);
  for (const [key, value] of node.entries) {
    if (value.text === undefined) addConditionReferences(value, into);
    else if (key === 'fact' || key === 'lowest') into.facts.add(skeleton(value.text));
    else if (key === 'parameter') into.parameters.add(skeleton(value.text));
    else if (key === 'condition') into.conditions.add(skeleton(value.text));
  }
}

/** Facts that a derivation reads, each with its place; `asOf` is none. */
export function operandsOf(from: Cursor): readonly Cursor[] {
  return from.entries.flatMap(([kind, body]) => {
    const ofOne = body.isObject && body.has('of');
    const texts =
      kind === 'lookup'
        ? [body.at('key')]
        : ofOne
          ? [body.at('of'), ...(body.at('within').has('since') ? [body.at('within').at('since')] : [])]
          : [];
    const plain = texts.length > 0 ? texts : [...body.items, ...body.entries.map(([, value]) => value)];
    return plain.filter(({ text }) => text !== undefined && text !== 'asOf');
  });
}

/** Everything reached from a condition: through named conditions, and through derived facts to what they use. */
export function reachedFrom(
  nodes: readonly Cursor[],
  conditions: ReadonlyMap<string, Cursor>,
  facts: ReadonlyMap<string, FactEntry>,
): References {
  const reached = noReferences();
  for (const node of nodes) addConditionReferences(node, reached);
  // A set hands out what is added to it while it is walked, so both walks end with the last new name.
  for (const name of reached.conditions) {
    const node = conditions.get(name);
    if (node) addConditionReferences(node, reached);
  }
  for (const id of reached.facts) {
    const from = facts.get(id)?.entry.at('from');
    if (!from?.exists) continue;
    for (const operand of operandsOf(from)) reached.facts.add(skeleton(operand.text!));
    addConditionReferences(from, reached);
  }
  return reached;
}

/** Facts of the group `option`, and those derived from one. */
export function optionFacts(facts: ReadonlyMap<string, FactEntry>): ReadonlySet<string> {
  const found = new Set([...facts.keys()].filter((id) => id.startsWith('option.')));
  for (let before = -1; before !== found.size; ) {
    before = found.size;
    for (const [id, { entry }] of facts) {
      if (operandsOf(entry.at('from')).some(({ text }) => found.has(skeleton(text!)))) found.add(id);
    }
  }
  return found;
}
