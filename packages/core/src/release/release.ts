import type { Condition } from './condition.ts';
import type { Evidence, Hazard, Source } from './evidence.ts';
import type { CodeList, Fact } from './fact.ts';
import type { Parameter, Table } from './parameter.ts';
import type { Rule } from './rule.ts';

export type Shape = 'advice' | 'decision' | 'checklist' | 'choice';
export type Status = 'draft' | 'active' | 'retired';

/** An item of stock; keys are ids of `option.*` facts, written as case values. A missing one means nothing recorded. */
export interface StockItem {
  readonly id: string;
  readonly title: string;
  readonly facts: Readonly<Record<string, unknown>>;
}

export interface Conclusion {
  readonly id: string;
  readonly title: string;
}

export interface Population {
  readonly when: Condition;
  /** The sentence shown where the patient is outside. */
  readonly otherwise: string;
}

/** What a local amendment did to the base that this release came from. */
export interface AmendmentRecord {
  readonly id: string;
  readonly version: string;
  readonly organisation: string;
  readonly approverRole: string;
  readonly date: string;
  readonly base: { readonly version: string; readonly digest: string };
  readonly changes: readonly {
    readonly item: string;
    readonly change: string;
    readonly from?: string;
    readonly to?: string;
    readonly reason: string;
  }[];
}

/**
 * Everything that can change an outcome or a text of one rule set, frozen. Its digest is the SHA-256 of its
 * canonical JSON (RFC 8785), computed on load and never taken on trust.
 */
export interface Release {
  readonly $schema: 'urn:dwellset:release:1';
  readonly id: string;
  readonly version: string;
  readonly status: Status;
  readonly withdrawn?: { readonly reason: string; readonly replacement?: string };
  readonly language: string;
  readonly title: string;
  readonly intendedUse: string;
  readonly users: string;
  readonly exclusions: readonly string[];
  readonly limits: readonly string[];
  readonly effectivePeriod?: { readonly start?: string; readonly end?: string };
  readonly shape: Shape;
  readonly population?: Population;
  /** Stage-of-care gate: the scope of every rule of the set. */
  readonly scope?: Condition;
  /** Decision sets: in precedence, strongest first. */
  readonly conclusions?: readonly Conclusion[];
  readonly defaultConclusion?: Conclusion;
  readonly conditions: Readonly<Record<string, Condition>>;
  /** Dictionary order; the facts a set derives for itself come last. */
  readonly facts: readonly Fact[];
  readonly codes: Readonly<Record<string, CodeList>>;
  readonly parameters: readonly Parameter[];
  readonly tables: readonly Table[];
  /** Choice sets: kind → options. */
  readonly stock: Readonly<Record<string, readonly StockItem[]>>;
  readonly rules: readonly Rule[];
  readonly evidence: readonly Evidence[];
  readonly sources: readonly Source[];
  readonly hazards: readonly Hazard[];
  readonly amendment?: AmendmentRecord;
  /** The releases whose conclusions it reads, pinned by digest; they run beside it. */
  readonly reads?: readonly { readonly id: string; readonly version: string; readonly digest: string }[];
}

/** Which releases a hospital has taken on; shown in every assessment. */
export interface Adoption {
  readonly $schema: 'urn:dwellset:adoption:1';
  readonly id: string;
  readonly organisation: string;
  readonly approverRole: string;
  readonly date: string;
  readonly reviewDue: string;
  readonly releases: readonly { readonly id: string; readonly version: string; readonly digest: string }[];
  readonly note?: string;
}

/**
 * That a released version must no longer be used. A document of its own, because a released file never changes.
 * It holds for every text under that version, so for what a hospital's amendment made of it as well.
 */
export interface Withdrawal {
  readonly $schema: 'urn:dwellset:withdrawal:1';
  readonly id: string;
  readonly version: string;
  /** Of the published release. */
  readonly digest: string;
  /** Calendar day, `YYYY-MM-DD`. */
  readonly date: string;
  readonly approverRole: string;
  readonly reason: string;
  /** Version of the same set to use instead. */
  readonly replacement?: string;
  readonly note?: string;
}
