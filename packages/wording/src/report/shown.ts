import type { Adoption, Release, Withdrawal } from '@dwellset/core';
import type { ComparisonShown } from '../compare/shown.ts';
import type { DiagnosticShown } from '../listings/diagnostic.ts';
import type { GateShown } from '../listings/release.ts';
import type { VignetteShown } from '../listings/vignettes.ts';

/** A gate of a release, or one that nobody ran for this report. */
export type ReportedGate = GateShown | { readonly gate: string; readonly outcome: 'not-run' };

/** One rule set as it stands, as published or as a hospital has it. */
export interface ReportedSet {
  readonly release: Release;
  readonly digest: string;
  readonly gates: readonly ReportedGate[];
  readonly vignettes: readonly VignetteShown[];
  /** Beside the release before it, or beside what is published. */
  readonly comparison?: ComparisonShown;
  /** The earlier side of that comparison. */
  readonly before?: Release;
}

/** What a report to a committee, to a pull request or to a pipeline is made of. */
export interface ReportShown {
  readonly sets: readonly ReportedSet[];
  /** What the check found in the documents, errors and warnings. */
  readonly findings: readonly DiagnosticShown[];
  readonly adoption?: Adoption;
  readonly withdrawals: readonly Withdrawal[];
}

/** What became of something, told by a shape on a page and by words everywhere. */
export type State = 'passed' | 'accepted' | 'refused' | 'not-run';

export interface ReportEntry {
  /** In the margin. */
  readonly label: string;
  readonly title?: string;
  readonly state?: State;
  readonly lines: readonly string[];
}

export interface ReportPart {
  readonly id: string;
  readonly title: string;
  readonly opening: string;
  readonly entries: readonly ReportEntry[];
}

/** A report before it is set as a page or as Markdown: both say the same. */
export interface ReportContent {
  readonly title: string;
  readonly language: string;
  readonly about: readonly string[];
  readonly parts: readonly ReportPart[];
}
