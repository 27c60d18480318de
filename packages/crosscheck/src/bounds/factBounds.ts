import type { Reading } from '@dwellset/core';
import { FALSE, TRUE } from '@dwellset/core';

type Recorded = 'true' | 'false' | 'unknown';

/** A number in the fact's unit, an instant in ms since 1970 or a local day since 1970; an open end is left out. */
interface IntervalBounds {
  readonly kind: 'interval';
  readonly low?: number;
  readonly high?: number;
  readonly recorded: Recorded;
}

/** Which codes, or which of `true` and `false`, the value may be. */
interface PossibleBounds {
  readonly kind: 'possible';
  readonly possible: readonly (boolean | string)[];
  readonly recorded: Recorded;
}

/** Codes answered yes and no; what neither names is not known. */
interface AnswerBounds {
  readonly kind: 'answers';
  readonly yes: readonly string[];
  readonly no: readonly string[];
  readonly recorded: Recorded;
}

/** Text is never compared; only whether it is recorded matters. */
interface TextBounds {
  readonly kind: 'text';
  readonly recorded: Recorded;
}

/** The value that is handed to json-rules-engine for one fact: plain JSON, so that it survives a queue or a file. */
export type FactBounds = IntervalBounds | PossibleBounds | AnswerBounds | TextBounds;

/** The fact that folded parameters become leaves of; its id has no group, so no dictionary can hold it. */
export const ALWAYS = 'always';
export const ALWAYS_BOUNDS: FactBounds = freeze({ kind: 'possible', possible: [true], recorded: 'true' });

/** json-rules-engine hands facts out by reference: a frozen copy keeps one rule's listener from changing another's. */
export function boundsOf(reading: Reading): FactBounds {
  return freeze(copyOf(reading));
}

/** A list is asked only whether it is recorded; its aggregates are facts of their own. */
function copyOf(reading: Reading): FactBounds {
  const { bounds } = reading;
  const recorded = reading.recorded === TRUE ? 'true' : reading.recorded === FALSE ? 'false' : 'unknown';
  switch (bounds.kind) {
    case 'interval':
      return {
        kind: 'interval',
        ...(bounds.low !== -Infinity ? { low: bounds.low } : {}),
        ...(bounds.high !== Infinity ? { high: bounds.high } : {}),
        recorded,
      };
    case 'possible': {
      const isBoolean = reading.fact.type === 'boolean';
      return {
        kind: 'possible',
        possible: bounds.possible.map((value) => (isBoolean ? value === 'true' : value)),
        recorded,
      };
    }
    case 'answers': {
      const answered = (truth: typeof TRUE | typeof FALSE) =>
        [...bounds.answers].flatMap(([code, answer]) => (answer === truth ? [code] : []));
      return { kind: 'answers', yes: answered(TRUE), no: answered(FALSE), recorded };
    }
    case 'text':
    case 'list':
      return { kind: 'text', recorded };
  }
}

function freeze(bounds: FactBounds): FactBounds {
  for (const part of Object.values(bounds)) if (Array.isArray(part)) Object.freeze(part);
  return Object.freeze(bounds);
}

/** Exactly one value is possible. */
export function isOneNumber(bounds: FactBounds): bounds is IntervalBounds & { readonly low: number } {
  return bounds.kind === 'interval' && bounds.low !== undefined && bounds.low === bounds.high;
}
