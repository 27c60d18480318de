import type { Condition } from './condition.ts';

export const INDICATORS = ['info', 'warning', 'critical'] as const;
export type Indicator = (typeof INDICATORS)[number];

export interface Suggestion {
  readonly label: string;
}

export interface OverrideReason {
  readonly code: string;
  readonly display: string;
}

/** What a rule says when it applies; field names as in HL7 CDS Hooks 2.0.1. Texts may hold `{{fact}}` and `{{parameter}}`. */
export interface RuleAdvice {
  readonly summary: string;
  readonly detail?: string | readonly string[];
  readonly indicator: Indicator;
  readonly suggestions?: readonly Suggestion[];
  readonly overrideReasons?: readonly OverrideReason[];
}

export type Preference = { readonly options: Condition } | { readonly lowest: string };

export interface Rule {
  readonly id: string;
  readonly title: string;
  readonly scope?: Condition;
  /** Advice, decision and choice rules; optional in a choice rule, where it reads the patient only. */
  readonly when?: Condition;
  /** Checklist rules: what must hold. */
  readonly expect?: Condition;
  readonly advice?: RuleAdvice;
  readonly concludes?: string;
  /** Choice rules: the stock list. */
  readonly of?: string;
  readonly excludes?: Condition;
  readonly prefers?: Preference;
  readonly remarks?: Condition;
  readonly because: string;
  readonly evidence: readonly string[];
  readonly hazards?: readonly string[];
  readonly locked?: boolean;
  /** Speaks outside the population of its set too. */
  readonly anyPopulation?: boolean;
  /** Rules folded while this one applies. */
  readonly supersedes?: readonly string[];
  /** Set by an amendment. */
  readonly local?: {
    readonly change: 'added' | 'replaced' | 'reworded' | 'switched-off';
    readonly reason: string;
  };
  readonly note?: string;
}
