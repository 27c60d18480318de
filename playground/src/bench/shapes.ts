import type { Diagnostic, LockedProof } from '@dwellset/authoring';
import type {
  Assessment,
  Case,
  CodeList,
  Evidence,
  Fact,
  Forecast,
  Parameter,
  Release,
  Source,
  Table,
} from '@dwellset/core';
import type { VignettesDocument } from '../draft/draft.ts';

/** The rules as published, or with the author's changes. */
export type Side = 'base' | 'ours';

/** Everything the dictionary and the choices define, whether a set uses it or not. */
export interface Dictionary {
  readonly facts: readonly Fact[];
  /** Groups of facts in dictionary order. */
  readonly groups: readonly { readonly id: string; readonly title: string }[];
  readonly codes: Readonly<Record<string, CodeList>>;
  /** `value` is the published default. */
  readonly parameters: readonly Parameter[];
  readonly tables: readonly Table[];
  readonly evidence: readonly Evidence[];
  readonly sources: readonly Source[];
}

export interface PublishedSet {
  readonly id: string;
  readonly release: Release;
  readonly digest: string;
  /** Rule → its document as text. */
  readonly texts: Readonly<Record<string, string>>;
  /** Its choices: topics of parameters that its rules may use. */
  readonly uses: readonly string[];
}

export interface Opened {
  readonly sets: readonly PublishedSet[];
  readonly dictionary: Dictionary;
  readonly amendments: readonly { readonly hospital: string; readonly name: string; readonly text: string }[];
  readonly cases: readonly { readonly name: string; readonly text: string }[];
}

/** One invented patient of a set; `key` is `rule/id` of the vignette. */
export interface Row {
  readonly key: string;
  readonly rule: string;
  readonly title: string;
  /** Kept by the author, not published. */
  readonly own: boolean;
}

/** What the author's changes make of the sets; `releases` holds only those that differ from the published ones. */
export interface BuiltSets {
  readonly refused: readonly Diagnostic[];
  readonly releases: Readonly<Record<string, Release>>;
}

export type News =
  | { readonly kind: 'set'; readonly set: PublishedSet }
  /** Everything else, after all sets. */
  | { readonly kind: 'opened'; readonly opened: Omit<Opened, 'sets'> }
  | { readonly kind: 'failed'; readonly message: string }
  | { readonly kind: 'patients'; readonly set: string; readonly rows: readonly Row[] }
  | { readonly kind: 'built'; readonly generation: number; readonly built: BuiltSets }
  | {
      readonly kind: 'cells';
      readonly set: string;
      readonly side: Side;
      readonly rules: readonly string[];
      readonly from: number;
      /** Places in OUTCOMES, row by row. */
      readonly cells: Uint8Array;
      readonly rows: number;
    }
  /** With the author's changes, some rules end so, and all others as published. */
  | {
      readonly kind: 'some';
      readonly set: string;
      /** All rules in the order in force, and those that are told, row by row. */
      readonly all: readonly string[];
      readonly rules: readonly string[];
      readonly from: number;
      readonly cells: Uint8Array;
      readonly rows: number;
    }
  | { readonly kind: 'same'; readonly set: string }
  /** The invented patients of a set could not be fetched. */
  | { readonly kind: 'missing'; readonly set: string }
  | {
      readonly kind: 'texts';
      readonly set: string;
      readonly side: Side;
      readonly from: number;
      readonly shorts: readonly string[];
      /** Two rows with the same sign read the same in every word and rank. */
      readonly signs: readonly string[];
    }
  | { readonly kind: 'settled'; readonly generation: number }
  | { readonly kind: 'answer'; readonly id: number; readonly value: unknown }
  | { readonly kind: 'unanswered'; readonly id: number; readonly message: string };

export interface Questions {
  assess: {
    ask: { side: Side; sets: readonly string[]; patient: Case };
    answer: { assessment: Assessment; problems: readonly string[] };
  };
  forecast: {
    ask: { side: Side; sets: readonly string[]; patient: Case; hours: number };
    answer: Forecast | undefined;
  };
  patient: { ask: { set: string; key: string }; answer: Case | undefined };
  checkRule: { ask: { set: string; rule: string; text: string }; answer: readonly Diagnostic[] };
  checkCase: { ask: { text: string }; answer: readonly Diagnostic[] };
  checkAmendment: { ask: { text: string }; answer: readonly Diagnostic[] };
  prove: { ask: Record<string, never>; answer: LockedProof | undefined };
}
export type QuestionName = keyof Questions;

export type Order =
  /** Where each part of the documents lies, and the set in view. */
  | { readonly kind: 'open'; readonly addresses: Readonly<Record<string, string>>; readonly first: string }
  /** Another set has come into view. */
  | { readonly kind: 'view'; readonly set: string }
  | {
      readonly kind: 'draft';
      readonly generation: number;
      /** The amendment as text; none where nothing is changed. */
      readonly amendment: string | undefined;
      readonly own: Readonly<Record<string, VignettesDocument>>;
      /** The set in view comes first. */
      readonly first: string;
    }
  | { readonly kind: 'ask'; readonly id: number; readonly name: QuestionName; readonly ask: unknown };
