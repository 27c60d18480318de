import type {
  CodeList,
  Condition,
  Constant,
  Fact,
  FactLeaf,
  Operator,
  Parameter,
  ParameterLeaf,
} from '@dwellset/core';
import { OPERATORS } from '@dwellset/core';
import { type Family, OPPOSITE } from '../bounds/boundsOperator.ts';
import { ALWAYS } from '../bounds/factBounds.ts';
import { engineValue, isRefused } from './constant.ts';
import type { EngineNode } from './engineRule.ts';
import { foldParameterLeaf } from './parameterLeaf.ts';

/** What a condition may refer to, and where its mistakes are gathered. */
export interface Surroundings {
  readonly conditions: Readonly<Record<string, Condition>>;
  readonly facts: ReadonlyMap<string, Fact>;
  readonly codes: Readonly<Record<string, CodeList>>;
  readonly parameters: ReadonlyMap<string, Parameter>;
  readonly report: (problem: string) => void;
}

/** Stands where a problem was reported; the translation as a whole is refused, so no engine ever sees it. */
const REFUSED: EngineNode = { fact: ALWAYS, operator: 'certainly:equal', value: false };

/**
 * One condition for one family. A `not` is pushed down to the leaves (De Morgan), where it turns the operator
 * into its opposite: "certainly not x" is "x holds for no possible value". The engine's own `not` would turn
 * "not for every possible value" into a yes. Named conditions are written out, parameters are decided.
 */
export function translateCondition(condition: Condition, family: Family, around: Surroundings): EngineNode {
  return translate(condition, false, []);

  function translate(node: Condition, negated: boolean, names: readonly string[]): EngineNode {
    const keys = Object.keys(node).sort().join(' ');
    if (keys === 'all') return group('all', (node as { all: readonly Condition[] }).all, negated, names);
    if (keys === 'any') return group('any', (node as { any: readonly Condition[] }).any, negated, names);
    if (keys === 'not') return translate((node as { not: Condition }).not, !negated, names);
    if (keys === 'condition') return named((node as { condition: string }).condition, negated, names);
    if (keys === 'fact operator' || keys === 'fact operator value')
      return factLeaf(node as FactLeaf, negated);
    if (keys === 'operator parameter value') return parameterLeaf(node as ParameterLeaf, negated);
    return refuse(`a node has the keys ${keys ? `\`${keys}\`` : 'of none'}`);
  }

  function group(
    kind: 'all' | 'any',
    of: readonly Condition[],
    negated: boolean,
    names: readonly string[],
  ): EngineNode {
    // The engine holds an empty group of either kind to be true.
    if (of.length === 0) return refuse(`\`${kind}\` is empty`);
    const parts = of.map((part) => translate(part, negated, names));
    return (kind === 'all') !== negated ? { all: parts } : { any: parts };
  }

  function named(name: string, negated: boolean, names: readonly string[]): EngineNode {
    if (names.includes(name)) return refuse(`\`${name}\` refers to itself: ${[...names, name].join(' → ')}`);
    const condition = Object.hasOwn(around.conditions, name) ? around.conditions[name] : undefined;
    return condition
      ? translate(condition, negated, [...names, name])
      : refuse(`no condition is named \`${name}\``);
  }

  function factLeaf(leaf: FactLeaf, negated: boolean): EngineNode {
    const fact = around.facts.get(leaf.fact);
    if (!fact) return refuse(`\`${leaf.fact}\` is not a fact of the release`);
    if (!isOperator(leaf.operator)) return refuse(`\`${leaf.operator}\` is not an operator`);
    const right = leaf.value === undefined ? undefined : constant(leaf.value);
    const codes = fact.codes === undefined ? undefined : around.codes[fact.codes];
    const value = engineValue(fact, codes, leaf.operator, right);
    if (isRefused(value)) return refuse(value.refused);
    return {
      fact: leaf.fact,
      operator: `${family}:${negated ? OPPOSITE[leaf.operator] : leaf.operator}`,
      value,
    };
  }

  function parameterLeaf(leaf: ParameterLeaf, negated: boolean): EngineNode {
    if (!isOperator(leaf.operator)) return refuse(`\`${leaf.operator}\` is not an operator`);
    const chosen = constant({ parameter: leaf.parameter });
    const right = constant(leaf.value);
    const held =
      chosen === undefined || right === undefined
        ? undefined
        : foldParameterLeaf(chosen, leaf.operator, right);
    if (held === undefined) return refuse(`\`${leaf.parameter}\` has no meaning with \`${leaf.operator}\``);
    return { fact: ALWAYS, operator: `${family}:equal`, value: held !== negated };
  }

  function constant(value: Constant | { readonly parameter: string }): Constant | undefined {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return value as Constant;
    const parameter = around.parameters.get((value as { parameter: string }).parameter);
    if (!parameter)
      around.report(`\`${(value as { parameter: string }).parameter}\` is not a parameter of the release`);
    return parameter?.value;
  }

  function refuse(problem: string): EngineNode {
    around.report(problem);
    return REFUSED;
  }
}

const isOperator = (text: string): text is Operator => (OPERATORS as readonly string[]).includes(text);

/** Whether the node could hold if no fact were known: false only where local choices alone rule it out. */
export function canHold(node: EngineNode): boolean {
  if ('all' in node) return node.all.every(canHold);
  if ('any' in node) return node.any.some(canHold);
  return node.fact !== ALWAYS || node.value === true;
}
