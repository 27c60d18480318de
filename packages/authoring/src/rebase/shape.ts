import type { FieldChange, ItemChange, ReleaseNamed } from '../compare/shape.ts';

export const STANDINGS = ['conflict', 'look', 'superfluous', 'unchanged'] as const;
/**
 * What becomes of one local change on another base. `conflict`: the base changed the same item, or refuses the change.
 * `look`: what is changed stands as it did, and something that it reads does not. `superfluous`: the base says the
 * same by itself now, or no longer holds what is switched off. `unchanged`: nothing behind it has moved.
 */
export type Standing = (typeof STANDINGS)[number];

/** What stands in the way of a local change, or makes it needless. */
export type Because =
  | 'base-changed'
  | 'gone'
  | 'refused'
  | 'now-exists'
  | 'reads-changed'
  | 'same-now'
  | 'nothing-left';

/** One item of a local amendment, held against the base it was made for and the one that is published now. */
export interface RebasedChange {
  /** JSON Pointer in the amendment. */
  readonly pointer: string;
  readonly kind: 'set' | 'switchOff' | 'replace' | 'reword' | 'add' | 'addText' | 'raise' | 'stock';
  /** A rule, a local choice, `table/row/column`, or a stock list. */
  readonly item: string;
  readonly locked: boolean;
  readonly reason: string;
  /** What the hospital puts there, as plain JSON; absent where it takes something away. */
  readonly local?: unknown;
  readonly standing: Standing;
  readonly because: readonly Because[];
  /** What of the item itself reads otherwise in the new base. */
  readonly base: readonly FieldChange[];
  /** What it reads and is otherwise, as `kind id`. */
  readonly reads: readonly string[];
  /** Why the new base refuses it. */
  readonly refused: readonly { readonly code: string; readonly message: string }[];
}

export interface RebasedSet {
  readonly set: string;
  readonly title: string;
  readonly before?: ReleaseNamed;
  /** Absent where the set is gone. */
  readonly after?: ReleaseNamed;
  /** The base that the amendment names is the old one at hand. */
  readonly pinned: boolean;
  readonly changes: readonly RebasedChange[];
  /** Rules of the new base that the hospital has not seen yet. */
  readonly newRules: readonly { readonly id: string; readonly title: string; readonly locked: boolean }[];
  /** Everything that reads otherwise in the base, whether or not the hospital touches it. */
  readonly items: readonly ItemChange[];
}

export interface Rebased {
  readonly hospital: string;
  readonly organisation: string;
  readonly sets: readonly RebasedSet[];
}
