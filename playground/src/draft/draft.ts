import type { AmendmentDocument, DocumentOf } from '@dwellset/authoring';
import type { CellValue, Constant, Evidence, Fact, Source, StockItem } from '@dwellset/core';

/** A base patient and variants, as in `<rule>.vignettes.json`. */
export type VignettesDocument = DocumentOf<'vignettes'>;

/** A local choice: a parameter, or one cell of a table. */
export interface ChoiceEdit {
  readonly value: Constant | CellValue;
  readonly reason: string;
  /** Evidence of the hospital, for a value that no published source stands for. */
  readonly evidence: readonly string[];
}

/** What became of one rule. Its text counts, readable or not, so that nothing typed is lost. */
export interface RuleEdit {
  readonly text?: string;
  readonly off?: true;
  /** A rule of the hospital's own, and the rule it stands after. */
  readonly added?: { readonly after?: string };
  readonly reason: string;
}

export interface StockEdit {
  readonly title: string;
  readonly options: readonly StockItem[];
  readonly reason: string;
}

type Head = Pick<AmendmentDocument, 'id' | 'version' | 'organisation' | 'approverRole' | 'date'>;

/** Everything the author has made, as it lies in the browser's store. */
export interface Draft {
  readonly head: Head;
  readonly sources: readonly Source[];
  readonly evidence: readonly Evidence[];
  readonly facts: readonly Fact[];
  /** Set → the published text that the changes were made on. */
  readonly base: Readonly<Record<string, { readonly version: string; readonly digest: string }>>;
  /** `parameter`, or `table/row/column`. */
  readonly choices: Readonly<Record<string, ChoiceEdit>>;
  /** `set/rule`. */
  readonly rules: Readonly<Record<string, RuleEdit>>;
  /** `set/kind`. */
  readonly stock: Readonly<Record<string, StockEdit>>;
  /** Set → the author's own patients. */
  readonly own: Readonly<Record<string, VignettesDocument>>;
}

export const EMPTY: Draft = {
  head: { id: 'our-changes', version: '1.0.0', organisation: '', approverRole: '', date: '' },
  sources: [],
  evidence: [],
  facts: [],
  base: {},
  choices: {},
  rules: {},
  stock: {},
  own: {},
};

/** A record with one entry set, or taken out where there is nothing. */
export function put<T>(
  record: Readonly<Record<string, T>>,
  key: string,
  value: T | undefined,
): Readonly<Record<string, T>> {
  const { [key]: _, ...others } = record;
  return value === undefined ? others : { ...record, [key]: value };
}

export const changeCount = ({ choices, rules, stock }: Draft): number =>
  Object.keys(choices).length + Object.keys(rules).length + Object.keys(stock).length;

/** `set/rule` → its parts. */
export function split(key: string): readonly [set: string, item: string] {
  const at = key.indexOf('/');
  return [key.slice(0, at), key.slice(at + 1)];
}
