import type { Case, Release } from '@dwellset/core';

/** One release with those whose conclusions it reads: what runs together. The release itself first. */
export type Side = readonly [Release, ...Release[]];

export const isSide = (releases: readonly Release[]): releases is Side => releases.length > 0;

/** A case that both sides are run on. */
export interface Seed {
  readonly from: 'vignette' | 'ward' | 'probe';
  /** `set/rule/vignette`, or patient and day of a ward. */
  readonly name: string;
  readonly case: Case;
}

export const DIRECTIONS = [
  'new',
  'stronger',
  'lost',
  'weaker',
  'newly-undetermined',
  'newly-settled',
  'otherwise',
] as const;
/** What became of an answer. `otherwise`: neither side speaks, but it counts differently, or the conclusion is another. */
export type Direction = (typeof DIRECTIONS)[number];

/** One key of an item that reads otherwise; values are plain JSON. */
export interface FieldChange {
  readonly field: string;
  readonly from?: unknown;
  readonly to?: unknown;
  /** Words only: it cannot move an outcome. */
  readonly wording: boolean;
}

export type ItemKind =
  | 'set'
  | 'rule'
  | 'condition'
  | 'local choice'
  | 'table'
  | 'stock'
  | 'fact'
  | 'code list'
  | 'evidence'
  | 'source'
  | 'hazard';

export interface ItemChange {
  readonly kind: ItemKind;
  readonly id: string;
  readonly change: 'added' | 'removed' | 'changed';
  readonly fields: readonly FieldChange[];
}

/** The smallest case found that shows a change: no fact can be dropped from it without losing the change. */
export interface Witness {
  readonly case: Case;
  /** Where the search began. */
  readonly from: Seed['from'];
  readonly name: string;
  /** The option of stock that it shows the change on, as `kind/option`. */
  readonly item?: string;
  readonly before: string;
  readonly after: string;
}

/** One rule (or the conclusion of a set) that comes out otherwise in one direction. */
export interface OutcomeChange {
  /** A rule's id, or `conclusion`. */
  readonly subject: string;
  readonly direction: Direction;
  /** How many vignettes and ward days show it. */
  readonly vignettes: number;
  readonly wardDays: number;
  readonly witness: Witness;
}

export const BUMPS = ['none', 'patch', 'minor', 'major'] as const;
export type Bump = (typeof BUMPS)[number];

/** Why a version must move that far. */
export interface BumpReason {
  readonly bump: Exclude<Bump, 'none'>;
  readonly why:
    | 'outcome-changed'
    | 'rule-removed'
    | 'option-removed'
    /** What decides reads otherwise, and no case was found that shows it: taken for a change all the same. */
    | 'logic-changed-unshown'
    | 'rule-added'
    | 'option-added'
    | 'wording';
  readonly items: readonly string[];
}

export interface ReleaseNamed {
  readonly version: string;
  readonly digest: string;
  /** Whose amendment it carries. */
  readonly amendedBy?: string;
}

/** Two releases of one rule set side by side. */
export interface SetComparison {
  readonly set: string;
  /** Absent where the set is on one side only. */
  readonly before?: ReleaseNamed;
  readonly after?: ReleaseNamed;
  readonly items: readonly ItemChange[];
  readonly outcomes: readonly OutcomeChange[];
  /** What both sides were run on, and how many answers were laid side by side. */
  readonly ran: {
    readonly vignettes: number;
    readonly wardDays: number;
    readonly probes: number;
    readonly answers: number;
  };
  /** How many of those came out otherwise in any answer. */
  readonly differing: { readonly vignettes: number; readonly wardDays: number };
  readonly bump: Bump;
  readonly reasons: readonly BumpReason[];
}
