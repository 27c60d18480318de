import type { Constant } from './condition.ts';

/** A published position: a value that a source stands for. */
export interface Position {
  readonly value: Constant;
  readonly evidence: readonly string[];
  readonly note?: string;
}

export type CautiousSide = 'lower' | 'higher' | 'neither';

/** A named local choice, policy-wide: `value` is the one in force in this release. */
export interface Parameter {
  readonly id: string;
  readonly type: 'boolean' | 'number' | 'code' | 'codes';
  readonly unit?: string;
  readonly step?: number;
  readonly range?: readonly [number, number];
  /** Name of the code list that a code or codes value is taken from. */
  readonly codes?: string;
  readonly title: string;
  readonly default: Constant;
  /** The value in force; equal to `default` in a base release. */
  readonly value: Constant;
  readonly cautious: CautiousSide;
  readonly positions: readonly Position[];
  /** True where no source gives a figure and the value is a local invention from the start. */
  readonly local?: boolean;
  readonly note?: string;
}

export type CellValue = number | string | boolean | null;

export interface TableCell {
  readonly value: CellValue;
  readonly range?: readonly [number, number];
  readonly positions?: readonly Position[];
  readonly evidence?: readonly string[];
}

export interface TableColumn {
  readonly type: 'number' | 'code' | 'boolean' | 'text';
  readonly unit?: string;
  readonly codes?: string;
  readonly cautious?: CautiousSide;
}

/** Local choices keyed by a code list, cell by cell; `null` means no entry. */
export interface Table {
  readonly id: string;
  /** Name of the code list of the key. */
  readonly key: string;
  readonly title: string;
  readonly columns: Readonly<Record<string, TableColumn>>;
  readonly rows: Readonly<Record<string, Readonly<Record<string, TableCell>>>>;
  /** What a code without a row means; needed unless every code has a row. */
  readonly otherwise?: Readonly<Record<string, CellValue>>;
  readonly note?: string;
}
