/** How a statement is known, strongest first; an entry speaks with its weakest. */
export const STATUSES = ['read', 'reported', 'computed', 'practice', 'memory'] as const;
export type EvidenceStatus = (typeof STATUSES)[number];

export interface Source {
  readonly id: string;
  readonly kind:
    | 'guideline'
    | 'standard'
    | 'study'
    | 'label'
    | 'regulation'
    | 'teaching'
    | 'local-policy'
    | 'practice';
  readonly body: string;
  readonly title: string;
  readonly year?: number;
  readonly edition?: string;
  readonly note?: string;
}

export interface EvidenceItem {
  readonly source: string;
  readonly locator: string;
  /** The source's own grade, as printed; `ungraded` where it gives none. */
  readonly grade: string;
  readonly strength?: 'strong' | 'weak';
  readonly status: EvidenceStatus;
  /** A qualifier such as `copy` or `secondary`. */
  readonly note?: string;
}

/** One statement in our own words, resting on one or more sources. */
export interface Evidence {
  readonly id: string;
  readonly statement: string;
  readonly from: readonly EvidenceItem[];
  readonly derivedFrom?: readonly string[];
  readonly note?: string;
}

export interface Hazard {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly causes: readonly string[];
  readonly effect: string;
  readonly harm: string;
  /** Vignettes, as `set/vignette`, that must change when the rule is switched off. */
  readonly controls: readonly string[];
  readonly initial: Risk;
  readonly residual: Risk;
  readonly owner: string;
  readonly status: 'open' | 'transferred' | 'closed';
  readonly note?: string;
}

export interface Risk {
  readonly severity: 'Minor' | 'Significant' | 'Considerable' | 'Major' | 'Catastrophic';
  readonly likelihood: 'Very low' | 'Low' | 'Medium' | 'High' | 'Very high';
  /** 1 acceptable to 5 unacceptable, read off the matrix of severity and likelihood. */
  readonly risk: 1 | 2 | 3 | 4 | 5;
}
