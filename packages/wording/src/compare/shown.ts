import type { Case, Release } from '@dwellset/core';

/** A version comparison as the authoring package makes it. */
export interface ComparisonShown {
  readonly set: string;
  readonly before?: ReleaseShown;
  readonly after?: ReleaseShown;
  readonly items: readonly {
    readonly kind: string;
    readonly id: string;
    readonly change: 'added' | 'removed' | 'changed';
    readonly fields: readonly {
      readonly field: string;
      readonly from?: unknown;
      readonly to?: unknown;
      readonly wording: boolean;
    }[];
  }[];
  readonly outcomes: readonly {
    readonly subject: string;
    readonly direction: string;
    readonly vignettes: number;
    readonly wardDays: number;
    readonly witness: {
      readonly case: Case;
      readonly from: string;
      readonly name: string;
      readonly item?: string;
      readonly before: string;
      readonly after: string;
    };
  }[];
  readonly ran: {
    readonly vignettes: number;
    readonly wardDays: number;
    readonly probes: number;
    readonly answers: number;
  };
  readonly differing: { readonly vignettes: number; readonly wardDays: number };
  readonly bump: string;
  readonly reasons: readonly {
    readonly bump: string;
    readonly why: string;
    readonly items: readonly string[];
  }[];
}

export interface ReleaseShown {
  readonly version: string;
  readonly digest: string;
  readonly amendedBy?: string;
}

export interface ComparisonTextOptions {
  readonly width?: number;
  /** They hold the titles and words; those of the later side first. */
  readonly releases?: readonly Release[];
}
