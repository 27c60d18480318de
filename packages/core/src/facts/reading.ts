import type { Cause } from '../explain/assessment.ts';
import type { Fact } from '../release/fact.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from './truth.ts';

/** Ends of a number (in the fact's unit), an instant (ms since 1970) or a local day (days since 1970). */
export interface Interval {
  readonly kind: 'interval';
  readonly low: number;
  readonly high: number;
}

/** Which codes (or which of `true`, `false`) the value may be. */
interface Possible {
  readonly kind: 'possible';
  readonly possible: readonly string[];
}

/** Per code: answered yes, answered no, open. */
interface AnswersRead {
  readonly kind: 'answers';
  readonly answers: ReadonlyMap<string, Truth>;
}

interface TextRead {
  readonly kind: 'text';
  readonly text: string | undefined;
}

/** One item of a list: its fields as they were read or follow from each other. */
export type ItemRead = ReadonlyMap<string, Reading>;

/** The items that are known; `complete` where there are no others. */
export interface ListRead {
  readonly kind: 'list';
  readonly items: readonly ItemRead[];
  readonly complete: boolean;
}

export type Bounds = Interval | Possible | AnswersRead | TextRead | ListRead;

/** What one fact of one case is known to be: bounds are the one meaning of unknown. */
export interface Reading {
  readonly fact: Fact;
  readonly bounds: Bounds;
  /** Whether anything stands in the record, three-valued. */
  readonly recorded: Truth;
  /** Why it is not exactly known; absent where it is. */
  readonly cause?: Cause;
  /** Known to have no value at all (no table entry), so that `lowest`, `highest` and `firstRecorded` pass it over. */
  readonly none?: true;
  /** Exact, but taken from a later operand of `firstRecorded`. */
  readonly assumed?: true;
  readonly at?: string;
  readonly from?: string;
  readonly comparator?: string;
  /** Facts this one was computed from; absent where the value was supplied. */
  readonly inputs?: readonly string[];
}

/** The whole domain of a fact: what is possible when nothing is known. */
export function domain(fact: Fact, codes: readonly string[], asOf: number): Bounds {
  switch (fact.type) {
    case 'number':
      return { kind: 'interval', low: fact.limits?.[0] ?? -Infinity, high: fact.limits?.[1] ?? Infinity };
    case 'date':
      return { kind: 'interval', low: -Infinity, high: Infinity };
    case 'date-time':
      return { kind: 'interval', low: -Infinity, high: asOf };
    case 'boolean':
      return { kind: 'possible', possible: ['true', 'false'] };
    case 'code':
      return { kind: 'possible', possible: codes };
    case 'codes':
      return { kind: 'answers', answers: new Map(codes.map((code) => [code, UNKNOWN])) };
    case 'text':
      return { kind: 'text', text: undefined };
    case 'list':
      return { kind: 'list', items: [], complete: false };
  }
}

/** True where exactly one value is possible. */
export function isExact(bounds: Bounds): boolean {
  switch (bounds.kind) {
    case 'interval':
      return bounds.low === bounds.high;
    case 'possible':
      return bounds.possible.length === 1;
    case 'answers':
      for (const answer of bounds.answers.values()) if (answer !== TRUE && answer !== FALSE) return false;
      return true;
    case 'text':
      return bounds.text !== undefined;
    case 'list':
      return (
        bounds.complete &&
        bounds.items.every((item) => [...item.values()].every(({ cause }) => cause === undefined))
      );
  }
}

/** The one value that is possible, in the fact's own terms; instants in ms, days as numbers. */
export function exactValue(bounds: Bounds): number | string | readonly string[] | undefined {
  if (!isExact(bounds)) return undefined;
  switch (bounds.kind) {
    case 'interval':
      return bounds.low;
    case 'possible':
      return bounds.possible[0];
    case 'answers':
      return [...bounds.answers].flatMap(([code, answer]) => (answer === TRUE ? [code] : []));
    case 'text':
      return bounds.text;
    case 'list':
      return undefined;
  }
}
