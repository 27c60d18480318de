import type { Case } from '@dwellset/core';
import type { Place } from '../coverage/shape.ts';

export const FINDING_KINDS = [
  /** A rule that no patient can make speak; of a check, that no patient can miss. */
  'never-applies',
  /** A rule that speaks to everybody whom it is about; a check that nobody can meet. */
  'always-applies',
  /** A choice rule that can concern no item whatever its attributes are. */
  'concerns-no-item',
  /** Whenever the first applies, the second says the same. */
  'redundant',
  /** Whenever it applies, a conclusion of higher precedence stands. */
  'never-stands',
  /** Whenever it applies, a rule that folds it away applies as well. */
  'always-folded',
  /** A locked rule that an unlocked one folds away. */
  'lock-folded',
  /** One says to do what the other says not to do. */
  'contradictory-advice',
  /** No patient can meet both checks. */
  'checks-contradict',
  /** One rule prefers what the other prefers not to be, or rules out. */
  'preference-contradicted',
  /** A decision that comes to no conclusion. */
  'gap',
  /** A value for which a decision falls back to its default, while it concludes just below and just above. */
  'gap-between',
  /** A choice that leaves no item. */
  'nothing-left',
  /** A comparison that comes out alike for every value its fact can have. */
  'limit-without-effect',
  /** A local choice whose values all come to the same. */
  'choice-without-effect',
] as const;
export type FindingKind = (typeof FINDING_KINDS)[number];

/** A patient who shows a finding, as the core reads him: no fact can be dropped. */
export interface Shown {
  readonly case: Case;
  /** What the core says of him, by what it is about: `rules.<id>`, `conclusion`, `options.<kind>.<id>`, `advice`. */
  readonly says: readonly { readonly what: string; readonly is: string }[];
}

export interface Finding {
  readonly kind: FindingKind;
  readonly set: string;
  /** What it is about: ids of rules, of a local choice, of a stock list; of a comparison the home of its condition. */
  readonly of: readonly string[];
  /**
   * `certain`: a witness confirms it, or every combination of atoms was looked at. `possible`: neither could be
   * done, so that it may be nothing.
   */
  readonly certainty: 'certain' | 'possible';
  /** Whether it concerns a locked rule. */
  readonly locked: boolean;
  readonly place: Place;
  /** Where something exists that should not, or to show what is meant. */
  readonly witness?: Shown;
  /** The same patient just below and just above the value that it is about. */
  readonly beside?: readonly [below: Shown, above: Shown];
  /** The facts whose atoms were all looked at, where something can never be. */
  readonly proof?: { readonly facts: readonly string[] };
  /** Of a comparison: its fact, and the truth that it always has. */
  readonly settled?: { readonly fact: string; readonly truth: boolean };
  /** SHA-256 of everything that it rests on: it moves when that is changed. */
  readonly digest: string;
  /** Why it may stay. */
  readonly accepted?: { readonly reason: string; readonly place: Place };
}

/** An acceptance that accepts nothing. */
export interface StaleAcceptance {
  readonly kind: string;
  readonly of: readonly string[];
  readonly place: Place;
  /** `changed`: the finding is there, but rests on something else by now. */
  readonly why: 'not-found' | 'changed';
  /** The digest that would have to be accepted anew. */
  readonly digest?: string;
}

export interface SetAnalysis {
  readonly set: string;
  readonly rules: number;
  /** Why the set does not run; nothing is known of it then. */
  readonly refused?: readonly string[];
  readonly findings: readonly Finding[];
  readonly stale: readonly StaleAcceptance[];
}
