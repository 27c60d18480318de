import type { WardBurden, WardChanges } from '@dwellset/authoring';
import type { Case, Release } from '@dwellset/core';

/** Orders to the ward's worker. */
export type WardOrder =
  | { readonly kind: 'open'; readonly url: string; readonly days: number; readonly seed: number }
  | {
      readonly kind: 'try';
      readonly generation: number;
      /** The published releases; sent once, and kept by the worker. */
      readonly base?: readonly Release[];
      /** Those that the author's changes make different. */
      readonly ours: readonly Release[];
    }
  | { readonly kind: 'cancel' }
  | { readonly kind: 'case'; readonly row: number };

export interface WardResult {
  readonly days: number;
  readonly patients: number;
  readonly base: WardBurden;
  /** None where nothing is changed. */
  readonly ours?: WardBurden;
  readonly changes?: WardChanges;
  /** Patient and day of each row that an example names. */
  readonly named: Readonly<Record<number, { readonly patient: number; readonly day: number }>>;
}

/** What the ward's worker says beside the steps of its work; reasons stay where they are made. */
export type WardNews =
  | { readonly kind: 'ward'; readonly generation?: never; readonly title: string }
  | { readonly kind: 'result'; readonly generation: number; readonly result: WardResult }
  | {
      readonly kind: 'case';
      readonly generation?: never;
      readonly row: number;
      readonly name: string;
      readonly case: Case | undefined;
    };
