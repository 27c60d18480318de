import type { FactTable } from '../facts/factTable.ts';
import type { Reading } from '../facts/reading.ts';
import type { Constant, Operator } from '../release/condition.ts';
import type { Fact } from '../release/fact.ts';
import type { Adoption, Release, StockItem } from '../release/release.ts';
import type { Rule } from '../release/rule.ts';
import type { Board } from './board.ts';
import type { FactLeaves } from './factLeaves.ts';
import type { LeafTest } from './leaf.ts';

/** A condition of a document, tied to its places in the table of truths. */
export type Node =
  | { readonly kind: 'all' | 'any'; readonly at: number; readonly of: readonly Node[] }
  | { readonly kind: 'not'; readonly at: number; readonly of: readonly [Node] }
  | { readonly kind: 'named'; readonly name: string; readonly at: number; readonly of: readonly [Node] }
  | {
      readonly kind: 'fact';
      readonly at: number;
      readonly fact: string;
      readonly operator: Operator;
      readonly expected: Constant | undefined;
      /** Where the right side is a local choice: its id. */
      readonly parameter: string | undefined;
    }
  | {
      readonly kind: 'parameter';
      readonly at: number;
      readonly parameter: string;
      readonly operator: Operator;
      readonly expected: Constant;
      readonly value: Constant;
    };

/** One distinct leaf over a fact. */
export interface Leaf {
  readonly at: number;
  readonly fact: string;
  /** Where the fact stands among the readings of a case. */
  readonly place: number;
  readonly test: LeafTest;
  /** What is asked, as text: of two leaves over facts that read alike, those with the same text ask the same. */
  readonly key: string;
}

/** Op codes of the gate program; each gate is [op, place, count, …places of its inputs]. */
export const ALL = 0;
export const ANY = 1;
export const NOT = 2;

/** Leaves and gates of one pass over the table of truths. */
export interface Program {
  readonly leaves: readonly Leaf[];
  /** The same leaves by the place of their fact. */
  readonly facts: readonly FactLeaves[];
  readonly gates: Int32Array;
}

export interface PlanRule {
  readonly rule: Rule;
  /** What applies only because of a local choice: no fact can put the rule in scope. */
  readonly switchedOff: boolean;
  readonly scope: Node | undefined;
  readonly when: Node | undefined;
  readonly expect: Node | undefined;
  readonly excludes: Node | undefined;
  readonly remarks: Node | undefined;
  readonly prefers: { readonly options: Node } | { readonly lowest: string } | undefined;
}

export interface PlanSet {
  readonly release: Release;
  readonly digest: string;
  /** What the assessment says of the release's standing. */
  readonly standing: string;
  readonly population: Node | undefined;
  readonly gate: Node | undefined;
  readonly rules: readonly PlanRule[];
  readonly stock: Readonly<Record<string, readonly StockItem[]>>;
}

export const LEAVE_TO_RUN = ['draft', 'retired', 'withdrawn', 'out-of-period'] as const;
export type LeaveToRun = (typeof LEAVE_TO_RUN)[number];

export interface Blank {
  /** Left out where it is not the same for every case. */
  readonly row: readonly (Reading | undefined)[];
  readonly truths: Uint8Array;
}

/** Releases compiled once: the table of their distinct leaves and the gate program over it. */
export interface Plan {
  readonly sets: readonly PlanSet[];
  readonly adoption: Adoption | undefined;
  readonly allowed: ReadonlySet<LeaveToRun>;
  /** Places in the table of truths. */
  readonly size: number;
  /** Truths that no case changes: local choices, empty of facts. */
  readonly constants: readonly (readonly [at: number, truth: number])[];
  /** What a case that says nothing reads and finds: every other case starts from it. */
  readonly blank: Blank;
  /** What is read once per case, and what is read once per option. */
  readonly patient: Program;
  readonly option: Program;
  /** For each set whose conclusion another set reads: the part of the patient's program that it needs. */
  readonly concluding: ReadonlyMap<string, { readonly set: PlanSet; readonly program: Program }>;
  readonly patientFacts: FactTable;
  readonly optionFacts: FactTable;
  /** The options of all stock lists, laid out to be judged at once. */
  readonly board: Board | undefined;
  /** Place of a fact in the dictionary: the order of questions. */
  readonly order: ReadonlyMap<string, number>;
  readonly facts: ReadonlyMap<string, Fact>;
}
