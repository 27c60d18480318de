import type { TruthWord } from '../facts/truth.ts';
import type { Operator } from '../release/condition.ts';
import type { EvidenceStatus } from '../release/evidence.ts';
import type { AmendmentRecord, Shape } from '../release/release.ts';
import type { Indicator, OverrideReason, Suggestion } from '../release/rule.ts';

export type Outcome = 'applies' | 'does-not-apply' | 'undetermined' | 'not-in-scope' | 'switched-off';
/** The words people see in a checklist. */
export type CheckWord =
  | 'met'
  | 'not-met'
  | 'not-recorded'
  | 'undetermined'
  | 'not-applicable'
  | 'switched-off';
export type OptionState = 'open' | 'to-confirm' | 'held' | 'ruled-out';

/** Why a value is not exactly known. FHIR's data-absent reasons stand as they are. */
export type Cause =
  | 'not-supplied'
  | 'nothing-recorded'
  | 'stale'
  | 'undated'
  | 'conflicting'
  | 'impossible'
  | 'unusual'
  | 'wrong-type'
  | 'wrong-unit'
  | 'no-entry'
  /** Known within bounds only: a date without a time, a comparator, a partly answered code list. */
  | 'within-bounds'
  /** Follows from facts that are not exactly known. */
  | 'derived'
  | import('../facts/case.ts').AbsentReason;

/** What was read for one fact, in plain JSON. Numbers in the fact's unit, instants as ISO 8601 in UTC. */
export interface FactReading {
  readonly fact: string;
  /** The exact value, where there is one. */
  readonly value?: boolean | number | string | readonly string[];
  /** Number, date and date-time: the ends of what is possible; an open end is left out. */
  readonly low?: number | string;
  readonly high?: number | string;
  /** Code: what it may be. */
  readonly possible?: readonly string[];
  /** Codes: answered yes; unanswered. The rest are answered no. */
  readonly yes?: readonly string[];
  readonly open?: readonly string[];
  /** Lists: how many entries are known; 0 too where an aggregate found none. */
  readonly entries?: number;
  readonly unit?: string;
  readonly cause?: Cause;
  readonly at?: string;
  readonly from?: string;
  /** True where the value was taken from a table because nothing better is recorded. */
  readonly assumed?: boolean;
  readonly comparator?: string;
  /** Facts this one was derived from. */
  readonly inputs?: readonly string[];
}

/** One node of a statement of reasons. `deciding` marks the nodes that alone fix the truth above them. */
export type Reason =
  | {
      readonly kind: 'all' | 'any';
      readonly truth: TruthWord;
      readonly deciding: boolean;
      readonly of: readonly Reason[];
    }
  | {
      readonly kind: 'not';
      readonly truth: TruthWord;
      readonly deciding: boolean;
      readonly of: readonly [Reason];
    }
  | {
      readonly kind: 'named';
      readonly name: string;
      readonly truth: TruthWord;
      readonly deciding: boolean;
      readonly of: readonly [Reason];
    }
  | {
      readonly kind: 'fact';
      readonly truth: TruthWord;
      readonly deciding: boolean;
      readonly operator: Operator;
      readonly expected?: boolean | number | string | readonly string[];
      readonly parameter?: string;
      readonly read: FactReading;
    }
  | {
      readonly kind: 'parameter';
      readonly truth: TruthWord;
      readonly deciding: boolean;
      readonly parameter: string;
      readonly operator: Operator;
      readonly expected: boolean | number | string | readonly string[];
      readonly value: boolean | number | string | readonly string[];
    };

/** The statement of reasons of one rule. Parts that the rule does not have are absent. */
export interface RuleReasons {
  readonly population?: Reason;
  /** The stage-of-care gate of the whole set. */
  readonly gate?: Reason;
  readonly scope?: Reason;
  readonly when?: Reason;
  readonly expect?: Reason;
}

export interface RuleResult {
  readonly id: string;
  readonly title: string;
  readonly outcome: Outcome;
  readonly check?: CheckWord;
  readonly concludes?: string;
  readonly locked: boolean;
  /** What the author changed locally, if anything. */
  readonly local?: { readonly change: string; readonly reason: string };
  /** Undetermined rules: minimal sets of facts for which some values settle it, smallest first. */
  readonly asks?: readonly (readonly string[])[];
  /** The smallest set of facts that settles it whatever is found. */
  readonly decides?: readonly string[];
  readonly reasons?: RuleReasons;
}

export interface OptionResult {
  readonly id: string;
  readonly title: string;
  readonly state: OptionState;
  /** Shared by ties, from 1; absent for ruled-out options. */
  readonly rank?: number;
  /** Rules that rule it out; rules that may. */
  readonly excludedBy: readonly string[];
  readonly undecided: readonly string[];
  readonly preferredBy: readonly string[];
  readonly remarks: readonly { readonly rule: string; readonly summary: string }[];
  readonly facts: readonly FactReading[];
}

export interface ChoiceResult {
  readonly of: string;
  /** True where a preference or an exclusion is not yet decided, so that the order may change. */
  readonly provisional: boolean;
  readonly options: readonly OptionResult[];
  /** Where nothing suitable is left: the fewest rules that together rule every option out. */
  readonly nothingLeft?: readonly string[];
  /** The item in the hand, judged like an option. */
  readonly chosen?: OptionResult;
}

export interface Compliance {
  /** All-or-none over the applicable checks. */
  readonly all: TruthWord;
  /** Fewest and most that can turn out to be met, and to be applicable. */
  readonly met: readonly [number, number];
  readonly of: readonly [number, number];
}

export interface ConclusionResult {
  /** Absent where the patient is outside the population. */
  readonly id?: string;
  readonly title?: string;
  readonly settled: boolean;
  /** In precedence; more than one where it is provisional. */
  readonly possible: readonly string[];
}

export interface RuleSetResult {
  readonly id: string;
  readonly version: string;
  readonly digest: string;
  readonly title: string;
  readonly shape: Shape;
  /** `active` by adoption, or what the release says. */
  readonly status: string;
  readonly intendedUse: string;
  readonly users: string;
  readonly exclusions: readonly string[];
  readonly limits: readonly string[];
  readonly population: 'in' | 'out' | 'not-established' | 'not-limited';
  /** The set's own sentence, where the patient is outside its population. */
  readonly outside?: string;
  readonly amendment?: AmendmentRecord;
  readonly conclusion?: ConclusionResult;
  readonly compliance?: Compliance;
  readonly choices?: readonly ChoiceResult[];
  readonly rules: readonly RuleResult[];
}

export interface EvidenceShown {
  readonly id: string;
  readonly statement: string;
  /** The weakest status of its items. */
  readonly status: EvidenceStatus;
  readonly from: readonly {
    readonly source: string;
    readonly body: string;
    readonly title: string;
    readonly year?: number;
    readonly edition?: string;
    readonly locator: string;
    readonly grade: string;
    readonly strength?: 'strong' | 'weak';
    readonly status: EvidenceStatus;
    readonly note?: string;
  }[];
}

export interface Advice {
  /** `<set>@<version>/<rule>`, stable. */
  readonly id: string;
  readonly set: string;
  readonly rule: string;
  readonly summary: string;
  readonly detail: readonly string[];
  readonly indicator: Indicator;
  readonly locked: boolean;
  readonly because: string;
  readonly suggestions: readonly Suggestion[];
  readonly overrideReasons: readonly OverrideReason[];
  /** The first is primary. */
  readonly evidence: readonly EvidenceShown[];
  /** The rule's evidence is from memory alone. */
  readonly memoryOnly: boolean;
  /** Advice ids folded under this one. */
  readonly folded: readonly string[];
  readonly answered?: { readonly reason: string; readonly until: string };
  /** The population of the set is not established; spoken because the rule is locked. */
  readonly populationNotEstablished?: true;
  /** A rule that would fold this one is not yet decided. */
  readonly strongerUndecided?: readonly string[];
  /** Where it speaks about the item in the hand. */
  readonly chosen?: string;
  readonly local?: { readonly change: string; readonly reason: string };
}

export interface Question {
  readonly fact: string;
  readonly question: string;
  readonly cause: Cause;
  /** A locked or critical rule waits for it. */
  readonly holdsUpStop: boolean;
  /** How many undetermined rules it could settle alone; how many it has a part in. */
  readonly settlesAlone: number;
  readonly partOf: number;
  /** Rules as `set/rule`. */
  readonly rules: readonly string[];
}

export interface Problem {
  readonly code: string;
  readonly fact?: string;
  readonly message: string;
  readonly hint?: string;
}

/** Everything the evaluator returns for one case, as plain JSON with a fixed key order. */
export interface Assessment {
  readonly case: { readonly id?: string; readonly timeZone: string; readonly recordedAt?: string };
  readonly asOf: string;
  readonly engine: { readonly name: string; readonly version: string };
  readonly caution: readonly string[];
  readonly adoption: {
    readonly organisation: string;
    readonly id: string;
    readonly approverRole: string;
    readonly date: string;
    readonly reviewDue: string;
    readonly releases: readonly { readonly id: string; readonly version: string; readonly digest: string }[];
  } | null;
  readonly ruleSets: readonly RuleSetResult[];
  readonly advice: readonly Advice[];
  readonly ask: readonly Question[];
  readonly problems: readonly Problem[];
  readonly counts: { readonly applies: number; readonly undetermined: number; readonly notInScope: number };
}
