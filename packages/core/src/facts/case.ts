/** FHIR data-absent reasons, and two of ours: a fact that was never needed, a fetch that failed is `error`. */
export const ABSENT_REASONS = [
  'unknown',
  'asked-unknown',
  'temp-unknown',
  'not-asked',
  'asked-declined',
  'masked',
  'not-applicable',
  'unsupported',
  'as-text',
  'error',
  'not-a-number',
  'negative-infinity',
  'positive-infinity',
  'not-performed',
  'not-permitted',
  'not-needed',
] as const;
export type AbsentReason = (typeof ABSENT_REASONS)[number];

export type Comparator = '<' | '<=' | '>' | '>=';

/** Codes answered one by one; what neither list names is unknown. */
export interface Answers {
  readonly yes?: readonly string[];
  readonly no?: readonly string[];
}

/** One entry of a list: field → value. */
export type ListItem = Readonly<Record<string, CaseValue>>;

/** The entries of a list; `complete: false` where there may be others. An empty list says that there are none. */
export type ListValue =
  | readonly ListItem[]
  | { readonly items: readonly ListItem[]; readonly complete?: boolean };

export type BareValue = boolean | number | string | readonly string[] | Answers;

export interface StatedValue {
  readonly value: BareValue;
  /** UCUM; required for a number whose fact has a unit. */
  readonly unit?: string;
  /** When it was observed; ISO 8601 with offset. The case's `recordedAt` where absent. */
  readonly at?: string;
  /** Where it came from, in the sender's words. */
  readonly from?: string;
  readonly comparator?: Comparator;
  /** An unusual value was checked and stands. */
  readonly confirmed?: boolean;
}

/** `null`: somebody looked and nothing is recorded. A missing key: nobody supplied it. */
export type CaseValue = null | BareValue | StatedValue | ListValue | { readonly absent: AbsentReason };

export interface AdviceResponse {
  /** `<set>@<version>/<rule>` */
  readonly advice: string;
  readonly reason: string;
  readonly comment?: string;
  readonly until: string;
}

/** The facts of one patient at one moment. */
export interface Case {
  readonly $schema?: 'urn:dwellset:case:1';
  /** Opaque; never printed unless asked for. */
  readonly id?: string;
  /** ISO 8601 with offset. */
  readonly asOf: string;
  /** IANA name, e.g. `Europe/London`. */
  readonly timeZone: string;
  /** Default `at` of every value. */
  readonly recordedAt?: string;
  /** Fact groups that somebody searched: a missing key there means nothing recorded. */
  readonly searched?: readonly string[];
  readonly facts: Readonly<Record<string, CaseValue>>;
  /** The item in the hand, by stock list: an option's id, or its attributes. */
  readonly chosen?: Readonly<Record<string, string | Readonly<Record<string, CaseValue>>>>;
  readonly responses?: readonly AdviceResponse[];
  readonly note?: string;
}
