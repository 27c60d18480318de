import type { Finding } from '@dwellset/authoring/analysis';

/** Orders to the worker that looks through the rules. */
export type FindingsOrder =
  | { readonly kind: 'open'; readonly addresses: Readonly<Record<string, string>> }
  | {
      readonly kind: 'analyse';
      readonly generation: number;
      /** The draft as an amendment; none where nothing is changed. */
      readonly amendment: string | undefined;
      /** Every set, those that the draft changes first. */
      readonly sets: readonly string[];
      readonly changed: readonly string[];
    }
  | { readonly kind: 'cancel' };

export interface FoundHere {
  readonly finding: Finding;
  /** Whether the published rules have it as well, and as open as here. */
  readonly published: boolean;
}

/** What that worker says beside the steps of its work. */
export interface FindingsNews {
  readonly kind: 'found';
  readonly generation: number;
  readonly found: readonly FoundHere[];
}
