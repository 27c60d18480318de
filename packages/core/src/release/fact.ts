import type { Constant, Operator, ParameterReference } from './condition.ts';

export type FactType = 'boolean' | 'number' | 'code' | 'codes' | 'date' | 'date-time' | 'text' | 'list';

/** What an operand of a derivation may be: a fact id, the moment of the case, a local choice or a constant. */
export type Operand = string | ParameterReference | { readonly value: number; readonly unit: string };

/**
 * How a fact follows from other facts: exactly one key of a closed list, never nested.
 * `asOf` as an operand means the moment of the case.
 */
export type Derivation =
  | { readonly elapsed: { readonly from: string; readonly to: string } }
  | { readonly calendarDays: { readonly from: string; readonly to: string } }
  | { readonly localHour: { readonly at: string } }
  | { readonly difference: readonly [Operand, Operand] }
  | { readonly sum: readonly Operand[] }
  | { readonly product: readonly Operand[] }
  | { readonly ratio: readonly Operand[] }
  | { readonly lowest: readonly string[] }
  | { readonly highest: readonly string[] }
  | { readonly firstRecorded: readonly string[] }
  | { readonly lookup: { readonly table: string; readonly key: string; readonly column: string } }
  | {
      readonly band: {
        readonly of: string;
        readonly cuts: readonly number[];
        readonly codes: readonly string[];
        /** Which band a value that equals a cut belongs to: the `upper` one unless stated. */
        readonly atCut?: 'upper' | 'lower' | ParameterReference;
      };
    }
  /** What another rule set, of shape decision, concludes for the same patient. */
  | { readonly conclusion: string }
  | { readonly count: Items & { readonly distinct?: string } }
  | { readonly total: ItemsField }
  | { readonly least: ItemsField }
  /** `rank` 2 is the second greatest, which says "twice" without comparing an item with a fact. */
  | { readonly greatest: ItemsField & { readonly rank?: number } }
  | { readonly newest: ItemsField }
  | { readonly longestRun: Items }
  | { readonly countCodes: { readonly of: string; readonly in: readonly string[] | ParameterReference } };

/** A condition over the fields of one item of a list. */
export type FieldCondition =
  | { readonly all: readonly FieldCondition[] }
  | { readonly any: readonly FieldCondition[] }
  | { readonly not: FieldCondition }
  | { readonly field: string; readonly operator: Operator; readonly value?: Constant | ParameterReference };

/** Which stretch of time, or which last entries, an aggregate looks at. */
export interface Window {
  /** A fact: from that instant on. */
  readonly since?: string;
  /** A length of time back from the end of the window. */
  readonly last?: ParameterReference | { readonly value: number; readonly unit: string };
  /** The newest so many items. */
  readonly newest?: number;
  /** Where it ends: the moment of the case, or the newest entry ("as charted up to the last entry"). */
  readonly until?: 'asOf' | 'newest';
}

export interface Items {
  /** A fact of type list. */
  readonly of: string;
  readonly where?: FieldCondition;
  readonly within?: Window;
}

export interface ItemsField extends Items {
  readonly field: string;
}

/** One field of an item. */
export interface ItemField {
  readonly type: Exclude<FactType, 'list' | 'codes'>;
  readonly title: string;
  readonly unit?: string;
  readonly step?: number;
  readonly limits?: readonly [number, number];
  readonly codes?: string;
  readonly monthMeans?: 'last-day';
  /** From other fields of the same item, or `asOf`: elapsed, calendarDays, difference, sum, product or ratio. */
  readonly from?: Derivation;
}

export interface Coding {
  readonly system: string;
  readonly code: string;
  readonly display: string;
}

/** One entry of the fact dictionary, or a fact that a rule set derives for itself. */
export interface Fact {
  readonly id: string;
  readonly type: FactType;
  /** UCUM; numbers only. `1` is a plain count or share and may be supplied bare. */
  readonly unit?: string;
  /** Numbers are compared after rounding to this; a power of ten or a multiple of one. */
  readonly step?: number;
  /** Digits shown after the decimal point. */
  readonly decimals?: number;
  /** The physical domain: a value outside is refused as impossible, an unknown value lies inside. */
  readonly limits?: readonly [number, number];
  /** The usual band: a value outside is used only when the case confirms it. */
  readonly usual?: readonly [number, number];
  /** ISO 8601 duration of days, hours or minutes; a day is 24 hours. */
  readonly staleAfter?: string;
  /** Name of a shared code list (`codes.json`). */
  readonly codes?: string;
  /** What a code that a plain list leaves out means; `unknown` unless stated. */
  readonly unlisted?: 'no' | 'unknown';
  /** For `YYYY-MM` in a date: the day it stands for. Without it such a value is refused. */
  readonly monthMeans?: 'last-day';
  /** This instant may not lie before that one; both are conflicting where it does. */
  readonly notBefore?: string;
  /** Lists: events happen at one instant, measured entries cover a stretch of time, things have no time. */
  readonly kind?: 'events' | 'measured' | 'things';
  /** Lists: the field of the instant, or the fields of start and end. */
  readonly at?: readonly string[];
  /** Lists: the fields of an item, at most 8. */
  readonly item?: Readonly<Record<string, ItemField>>;
  readonly title: string;
  readonly question: string;
  /** Words for the values of a boolean, used in sentences. */
  readonly phrases?: { readonly true: string; readonly false: string };
  readonly codings?: readonly Coding[];
  readonly from?: Derivation;
  readonly note?: string;
}

/** Code → words, in the order of the list. */
export type CodeList = Readonly<Record<string, string>>;
