import { LogicEngine } from 'json-logic-engine';
import type { Plain, PlainCase, PlainRule } from '../twoValued.ts';

type Logic = boolean | number | string | readonly Logic[] | { readonly [operator: string]: Logic };

/** Rules as JSON Logic, each compiled to a function (`new Function`); a missing variable is `null`. */
export function jsonLogic(rules: readonly PlainRule[]): (given: PlainCase) => Set<string> {
  const engine = new LogicEngine();
  const built = rules.map(({ id, condition }) => ({
    id,
    holds: engine.build(logicOf(condition)) as (given: PlainCase) => unknown,
  }));
  return (given) => {
    const found = new Set<string>();
    for (const { id, holds } of built) if (holds(given)) found.add(id);
    return found;
  };
}

function logicOf(condition: Plain): Logic {
  switch (condition.kind) {
    case 'all':
      return { and: condition.of.map(logicOf) };
    case 'any':
      return { or: condition.of.map(logicOf) };
    case 'not':
      return { '!': [logicOf(condition.of)] };
    case 'constant':
      return condition.value;
    case 'leaf':
      return leafOf(condition);
  }
}

function leafOf({ fact, operator, value }: Extract<Plain, { readonly kind: 'leaf' }>): Logic {
  const have: Logic = { var: fact };
  switch (operator) {
    case 'equal':
      return { '===': [have, value] };
    case 'notEqual':
      return { '!==': [have, value] };
    case 'in':
      return { in: [have, value] };
    case 'notIn':
      return { '!': [{ in: [have, value] }] };
    case 'contains':
      return { in: [value, have] };
    case 'doesNotContain':
      return { '!': [{ in: [value, have] }] };
    case 'containsAny':
      return { or: (value as readonly string[]).map((code) => ({ in: [code, have] })) };
    case 'lessThan':
    case 'before':
      return { '<': [have, value] };
    case 'lessThanInclusive':
      return { '<=': [have, value] };
    case 'greaterThan':
    case 'after':
      return { '>': [have, value] };
    case 'greaterThanInclusive':
      return { '>=': [have, value] };
    case 'recorded':
      return { '!==': [have, null as unknown as Logic] };
    case 'notRecorded':
      return { '===': [have, null as unknown as Logic] };
  }
}
