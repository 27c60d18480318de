import type { Condition } from '@dwellset/core';
import type { Range } from '../diagnostic.ts';

/** Where something that is to be covered stands. */
export interface Place {
  /** Relative to the policies folder. */
  readonly path: string;
  readonly pointer: string;
  readonly range: Range;
}

/** Every combination of exactly known facts was tried, and none of them does it. */
export interface Proof {
  readonly combinations: number;
  /** The facts that were varied; none where local choices alone settle it. */
  readonly facts: readonly string[];
}

/** One thing that a vignette should show. What is proven impossible counts neither for nor against the total. */
export interface Goal<W extends string = string> {
  readonly what: W;
  readonly state: 'covered' | 'uncovered' | 'impossible';
  /** Stands wherever `state` is `impossible`. */
  readonly proof?: Proof;
}

export type OutcomeGoal = 'applies' | 'does-not-apply' | 'undetermined' | 'not-in-scope';

export interface RuleCoverage {
  readonly rule: string;
  /** A check: it applies where it is not met. */
  readonly check: boolean;
  readonly place: Place;
  readonly goals: readonly Goal<OutcomeGoal>[];
}

export type Part = 'population' | 'scope' | 'when' | 'expect' | 'excludes' | 'prefers' | 'remarks';

/** Where a condition has its say: a part of a rule or of the set, or a named condition. */
export type Home =
  | { readonly rule: string; readonly part: Part }
  | { readonly part: 'population' | 'scope' }
  | { readonly named: string };

/** `alone`: shown, once true and once false, to decide the outcome by itself. */
export type ConditionGoal = 'true' | 'false' | 'unknown' | 'alone';

export interface ConditionCoverage {
  readonly home: Home;
  /** One comparison, or the mention of a named condition. */
  readonly condition: Condition;
  readonly place: Place;
  readonly goals: readonly Goal<ConditionGoal>[];
  /** The vignettes, as `rule/vignette`, in which it alone decides; one and the same where two options differ. */
  readonly pair?: readonly [whenTrue: string, whenFalse: string];
}

export type LimitGoal = 'below' | 'at' | 'above';

export interface LimitCoverage {
  readonly home: Home;
  readonly fact: string;
  /** Numbers in the fact's unit, days since 1970, or ms since 1970. */
  readonly limit: number;
  /** How near "just below" and "just above" are, on the same scale. */
  readonly step: number;
  readonly condition: Condition;
  readonly place: Place;
  readonly goals: readonly Goal<LimitGoal>[];
}

export interface OptionCoverage {
  /** The stock list. */
  readonly of: string;
  readonly option: string;
  readonly place: Place;
  readonly goals: readonly Goal<'kept' | 'ruled-out'>[];
}

export interface RemarkCoverage {
  /** The stock list. */
  readonly of: string;
  readonly rule: string;
  readonly place: Place;
  /** Of a patient whom the rule is about: an option with its remark, and one without. */
  readonly goals: readonly Goal<'remarked' | 'unremarked'>[];
}

export interface Total {
  readonly covered: number;
  readonly uncovered: number;
  readonly impossible: number;
  /** Of what is possible, rounded down to a tenth: 100 means everything. */
  readonly percent: number;
}

export const TOTALS = ['outcomes', 'truths', 'alone', 'limits', 'options'] as const;
export type TotalName = (typeof TOTALS)[number];

export interface SetCoverage {
  readonly set: string;
  readonly vignettes: number;
  /** Why the set does not run; nothing is covered then. */
  readonly refused?: readonly string[];
  /** Outcomes of rules; truth values of conditions; conditions that decide alone; limits; options and remarks on them. */
  readonly totals: Readonly<Record<TotalName, Total>>;
  readonly rules: readonly RuleCoverage[];
  readonly conditions: readonly ConditionCoverage[];
  readonly limits: readonly LimitCoverage[];
  readonly options: readonly OptionCoverage[];
  readonly remarks: readonly RemarkCoverage[];
}

export interface Coverage {
  readonly sets: readonly SetCoverage[];
}
