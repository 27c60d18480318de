import { Engine, type NestedCondition, type TopLevelCondition } from 'json-rules-engine';
import type { Plain, PlainCase, PlainRule } from '../twoValued.ts';

/** Rules written for json-rules-engine as its documentation writes them; a missing fact is an undefined one. */
export function jsonRulesEngine(rules: readonly PlainRule[]): (given: PlainCase) => Promise<Set<string>> {
  const engine = new Engine([], { allowUndefinedFacts: true });
  engine.addOperator(
    'containsAny',
    (have: unknown, wanted: readonly string[]) =>
      Array.isArray(have) && wanted.some((code) => have.includes(code)),
  );
  engine.addOperator('recorded', (have: unknown) => have !== undefined);
  engine.addOperator('notRecorded', (have: unknown) => have === undefined);
  engine.addFact('always', true);
  for (const { id, condition } of rules) {
    engine.addRule({ name: id, conditions: rootOf(condition), event: { type: 'speaks' } });
  }
  return async (given) => {
    const { results, failureResults } = await engine.run({ ...given });
    // The result tree is what it has for reasons; whoever asks for them reads it.
    for (const { conditions } of [...results, ...failureResults]) countTrue(conditions);
    return new Set(results.map(({ name }) => name));
  };
}

function rootOf(condition: Plain): TopLevelCondition {
  const node = nodeOf(condition);
  return ('fact' in node ? { all: [node] } : node) as TopLevelCondition;
}

const DIRECTED: Readonly<Record<string, string>> = { before: 'lessThan', after: 'greaterThan' };

function nodeOf(condition: Plain): NestedCondition {
  switch (condition.kind) {
    case 'all':
      return { all: condition.of.map(nodeOf) };
    case 'any':
      return { any: condition.of.map(nodeOf) };
    case 'not':
      return { not: nodeOf(condition.of) };
    case 'constant':
      return { fact: 'always', operator: 'equal', value: condition.value };
    case 'leaf': {
      const { fact, operator, value } = condition;
      return { fact, operator: DIRECTED[operator] ?? operator, value };
    }
  }
}

interface ResultNode {
  readonly result?: boolean | null;
  readonly all?: readonly ResultNode[];
  readonly any?: readonly ResultNode[];
  readonly not?: ResultNode;
}

function countTrue(condition: unknown): number {
  const { result, all, any, not } = condition as ResultNode;
  let found = result === true ? 1 : 0;
  for (const inner of all ?? any ?? (not ? [not] : [])) found += countTrue(inner);
  return found;
}
