import type { EngineValue, Family } from '../bounds/boundsOperator.ts';

/** A condition as json-rules-engine reads it: never a `not`, a reference, a path or an empty group. */
export type EngineNode =
  | { readonly all: readonly EngineNode[] }
  | { readonly any: readonly EngineNode[] }
  | EngineLeaf;

interface EngineLeaf {
  readonly fact: string;
  readonly operator: string;
  readonly value: EngineValue;
}

/** The part of a rule (or, without a rule, of its set) that an engine rule answers for. */
export type Part = 'population' | 'gate' | 'scope' | 'when' | 'expect' | 'excludes' | 'prefers' | 'remarks';

/** One half of a pair: the engine's event says that the part certainly, or possibly, holds. */
export interface EngineRule {
  readonly name: string;
  readonly conditions: { readonly all: readonly EngineNode[] };
  readonly event: {
    readonly type: Family;
    readonly params: { readonly set: string; readonly rule?: string; readonly part: Part };
  };
}

/** `scope`, `gate` and so on of the set itself, or `rule/part`. */
export const partName = (rule: string | undefined, part: Part): string =>
  rule === undefined ? part : `${rule}/${part}`;
