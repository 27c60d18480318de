import type { Reading } from '../facts/reading.ts';
import { parseDay, parseInstant } from '../facts/time.ts';
import { FALSE, not, or, TRUE, type Truth, truth, UNKNOWN } from '../facts/truth.ts';
import type { Constant, Operator } from '../release/condition.ts';
import type { Fact } from '../release/fact.ts';

type Comparison = 'lessThan' | 'lessThanInclusive' | 'greaterThan' | 'greaterThanInclusive' | 'equal';

/** What a leaf asks of a reading, ready to run. */
export type LeafTest =
  | { readonly kind: 'recorded'; readonly negated: boolean }
  | {
      readonly kind: 'compare';
      readonly comparison: Comparison;
      readonly to: number;
      readonly negated: boolean;
    }
  | { readonly kind: 'member'; readonly members: ReadonlySet<string>; readonly negated: boolean }
  | { readonly kind: 'contains'; readonly codes: readonly string[]; readonly negated: boolean };

/** Every value the bounds allow makes it true, or none does, or it is unknown. */
export function leafTruth(test: LeafTest, reading: Reading): Truth {
  const plain = positiveTruth(test, reading);
  return test.negated ? not(plain) : plain;
}

/** The same of a number, instant or day that is exactly known and on record. */
export function exactTruth(test: LeafTest, value: number): Truth {
  let plain: Truth = UNKNOWN;
  if (test.kind === 'recorded') plain = TRUE;
  else if (test.kind === 'compare') plain = compare(test.comparison, value, value, test.to);
  return test.negated ? not(plain) : plain;
}

function positiveTruth(test: LeafTest, { bounds, recorded }: Reading): Truth {
  switch (test.kind) {
    case 'recorded':
      return recorded;
    case 'compare':
      return bounds.kind === 'interval'
        ? compare(test.comparison, bounds.low, bounds.high, test.to)
        : UNKNOWN;
    case 'member': {
      if (bounds.kind !== 'possible') return UNKNOWN;
      let inside = 0;
      for (const code of bounds.possible) if (test.members.has(code)) inside += 1;
      return truth(inside === bounds.possible.length && inside > 0, inside > 0);
    }
    case 'contains': {
      if (bounds.kind !== 'answers') return UNKNOWN;
      let some: Truth = FALSE;
      for (const code of test.codes) some = or(some, bounds.answers.get(code) ?? FALSE);
      return some;
    }
  }
}

function compare(comparison: Comparison, low: number, high: number, to: number): Truth {
  switch (comparison) {
    case 'lessThan':
      return truth(high < to, low < to);
    case 'lessThanInclusive':
      return truth(high <= to, low <= to);
    case 'greaterThan':
      return truth(low > to, high > to);
    case 'greaterThanInclusive':
      return truth(low >= to, high >= to);
    case 'equal':
      return truth(low === to && high === to, low <= to && to <= high);
  }
}

const COMPARISONS: Partial<Record<Operator, readonly [Comparison, boolean]>> = {
  lessThan: ['lessThan', false],
  lessThanInclusive: ['lessThanInclusive', false],
  greaterThan: ['greaterThan', false],
  greaterThanInclusive: ['greaterThanInclusive', false],
  before: ['lessThan', false],
  after: ['greaterThan', false],
  equal: ['equal', false],
  notEqual: ['equal', true],
};

/** A constant on the scale of the fact: numbers as they are, instants in ms, days in days. */
function onScale(fact: Pick<Fact, 'type'>, value: Constant | undefined): number | undefined {
  if (fact.type === 'number') return typeof value === 'number' ? value : undefined;
  if (typeof value !== 'string') return undefined;
  return fact.type === 'date' ? parseDay(value) : parseInstant(value);
}

const textsOf = (value: Constant | undefined): readonly string[] | undefined => {
  if (typeof value === 'string') return [value];
  return Array.isArray(value) ? value : undefined;
};

/** The test of a leaf over a fact; nothing where operator, type and constant do not fit together. */
export function leafTest(
  fact: Pick<Fact, 'type'>,
  operator: Operator,
  value: Constant | undefined,
): LeafTest | undefined {
  if (operator === 'recorded' || operator === 'notRecorded') {
    return { kind: 'recorded', negated: operator === 'notRecorded' };
  }
  const [single, many] = [typeof value === 'string' || typeof value === 'boolean', Array.isArray(value)];
  switch (fact.type) {
    case 'number':
    case 'date':
    case 'date-time': {
      const [comparison, negated] = COMPARISONS[operator] ?? [];
      const to = onScale(fact, value);
      const directed = operator === 'before' || operator === 'after';
      const equality = operator === 'equal' || operator === 'notEqual';
      if (comparison === undefined || to === undefined || (fact.type === 'number' ? directed : equality))
        return undefined;
      return { kind: 'compare', comparison, to, negated: negated ?? false };
    }
    case 'boolean':
    case 'code': {
      const equality = operator === 'equal' || operator === 'notEqual';
      const listed = fact.type === 'code' && (operator === 'in' || operator === 'notIn');
      const fits = equality
        ? single && (typeof value === 'boolean') === (fact.type === 'boolean')
        : listed && many;
      if (!fits) return undefined;
      const members = new Set(many ? (value as readonly string[]) : [String(value)]);
      return { kind: 'member', members, negated: operator === 'notEqual' || operator === 'notIn' };
    }
    case 'codes': {
      const fits =
        operator === 'containsAny'
          ? many
          : (operator === 'contains' || operator === 'doesNotContain') && !many;
      const codes = textsOf(value);
      return fits && codes ? { kind: 'contains', codes, negated: operator === 'doesNotContain' } : undefined;
    }
    case 'text':
      return undefined;
  }
}

/** A local choice read as if it were a fact of its type, exactly known. */
export function constantReading(fact: Fact, value: Constant, codes: readonly string[]): Reading {
  const known = { fact, recorded: TRUE } as const;
  if (typeof value === 'number') return { ...known, bounds: { kind: 'interval', low: value, high: value } };
  if (typeof value === 'object') {
    const answers = new Map<string, Truth>(codes.map((code) => [code, value.includes(code) ? TRUE : FALSE]));
    return { ...known, bounds: { kind: 'answers', answers } };
  }
  return { ...known, bounds: { kind: 'possible', possible: [String(value)] } };
}
