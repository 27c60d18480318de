import type { Case, Condition, Constant } from '@dwellset/core';
import type { Home, Place } from '../coverage/shape.ts';

/** Which slip of an author a planted mistake imitates. */
export type MistakeKind = 'comparison' | 'limit' | 'code' | 'group' | 'left-out' | 'turned-round' | 'default';

/** One mistake planted in one place; everything else of the set stays as it is. */
export interface Mistake {
  readonly kind: MistakeKind;
  /** The condition it stands in, or the local choice whose value in force is another. */
  readonly home: Home | { readonly parameter: string };
  readonly place: Place;
  /** Rules that the condition is part of, directly or by name; all that use the local choice. */
  readonly rules: readonly string[];
  /** One of those rules is locked, so that it must be noticed. */
  readonly locked: boolean;
  readonly before: Condition | Constant;
  /** Absent where it is left out. */
  readonly after?: Condition | Constant;
}

/** What the same patient gets from the rules as they stand and with the mistake. */
export interface Difference {
  /** `rules.<rule>`, `options.<kind>.<option>`, `conclusion`, `advice` … */
  readonly what: string;
  readonly as: string;
  readonly with: string;
}

/** A patient who tells the two apart, confirmed by evaluating both. No fact of it can be left out. */
export interface TellingCase {
  readonly case: Case;
  readonly differences: readonly Difference[];
}

/**
 * `noticed`: an expectation of a vignette fails. `without-effect`: proven to change nothing. `unnoticed`: no vignette
 * fails. A mistake that no patient was found to show, and that is not proven to be without effect, is unnoticed too.
 */
export interface Survivor extends Mistake {
  readonly verdict: 'without-effect' | 'unnoticed';
  /** Combinations of answers that were looked at, and the facts that were varied. */
  readonly looked: { readonly boxes: number; readonly facts: readonly string[]; readonly complete: boolean };
  readonly telling?: TellingCase;
}

/** A mistake, the first vignette that notices it, and what it expects against what it gets with the mistake. */
export interface Noticed extends Mistake {
  readonly by: { readonly rule: string; readonly vignette: string };
  readonly telling: TellingCase;
}

export interface Tally {
  readonly planted: number;
  readonly noticed: number;
  readonly withoutEffect: number;
  /** Of those that have an effect, rounded down to a tenth: 100 means all. */
  readonly percent: number;
}

export interface SetMutation {
  readonly set: string;
  readonly vignettes: number;
  /** Why nothing was planted. */
  readonly refused?: readonly string[];
  readonly all: Tally;
  /** The same for mistakes in what a locked rule rests on. */
  readonly locked: Tally;
  readonly noticed: readonly Noticed[];
  readonly survivors: readonly Survivor[];
}

export interface Mutation {
  readonly sets: readonly SetMutation[];
}
