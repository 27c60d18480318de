import type { Constant } from '@dwellset/core';
import type { Range } from '../diagnostic.ts';
import type { KeyCase } from '../documents/key.ts';

export type Verdict = 'agreed' | 'disagreed' | 'not-decidable';

/** Why an answer can neither be given nor denied here. */
export type Undecided =
  /** Rules wait for facts that the published row does not give. */
  | 'open'
  /** No rule of the set rests on the rows named. */
  | 'no-rule'
  /** No local choice has a position that rests on the rows named. */
  | 'no-choice'
  /** The set does not speak about such a patient. */
  | 'outside'
  /** The set does not build. */
  | 'not-run';

/** One rule that bears on an answer, and what it rests on. */
export interface Bearing {
  readonly set: string;
  readonly rule: string;
  readonly title: string;
  /** The first is primary. */
  readonly evidence: readonly string[];
}

/** One part of an answer held against what the rules come to. */
export interface Judged {
  readonly part: keyof KeyCase['answer'];
  readonly verdict: Verdict;
  readonly expected: unknown;
  readonly received: unknown;
  /** Rules that made it so, or that might have spoken and do not. */
  readonly by: readonly Bearing[];
  readonly undecided?: Undecided;
  /** Facts that would settle it. */
  readonly asks: readonly string[];
}

/** A local choice of which another published position would agree with the key. */
export interface SourceConflict {
  readonly choice: string;
  readonly title: string;
  readonly here: Constant;
  readonly there: Constant;
  readonly unit?: string;
  readonly evidence: readonly string[];
}

export interface CaseScore {
  readonly id: string;
  readonly row?: string;
  readonly source: string;
  readonly locator: string;
  readonly status: KeyCase['status'];
  readonly says: string;
  readonly verdict: Verdict;
  readonly judged: readonly Judged[];
  /** The rules rest on the same row: agreement shows that it was copied rightly, and no more. */
  readonly fed: boolean;
  /** Why it differs, as recorded in the key. */
  readonly differs?: string;
  readonly conflicts: readonly SourceConflict[];
  readonly range: Range;
}

export interface KeyScore {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly path: string;
  readonly cases: readonly CaseScore[];
}
