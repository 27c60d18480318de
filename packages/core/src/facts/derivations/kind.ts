import type { Constant } from '../../release/condition.ts';
import type { Derivation, Fact, Operand } from '../../release/fact.ts';
import type { Parameter, Table } from '../../release/parameter.ts';
import type { Bounds, Interval, Reading } from '../reading.ts';
import { TRUE, type Truth } from '../truth.ts';

/** What a derivation may look at while a case is read. */
export interface Inputs {
  reading(fact: string): Reading;
  parameter(id: string): Constant;
  table(id: string): Table;
  codes(list: string): readonly string[];
  /** What another rule set concludes for this case. */
  conclusion(set: string): ConclusionRead;
  /** The moment of the case as an interval; open where the case states none. */
  readonly asOf: Interval;
  readonly zone: string;
}

/** The same choices, tables and moment with readings from elsewhere. */
export const withReadings = (inputs: Inputs, reading: Inputs['reading']): Inputs => ({
  reading,
  parameter: (id) => inputs.parameter(id),
  table: (id) => inputs.table(id),
  codes: (list) => inputs.codes(list),
  conclusion: (set) => inputs.conclusion(set),
  asOf: inputs.asOf,
  zone: inputs.zone,
});

/** A conclusion as a fact: what it may still be. */
export interface ConclusionRead {
  /** Empty where the set is not about this patient, so that it concludes nothing. */
  readonly possible: readonly string[];
  readonly settled: boolean;
  /** One conclusion stands by now, if only for the time being; else it may be that none comes. */
  readonly stands: boolean;
  /** Facts that keep it open. */
  readonly waitsFor: readonly string[];
}

export const NOTHING_CONCLUDED: ConclusionRead = { possible: [], settled: true, stands: false, waitsFor: [] };

/** What a derivation gives before it is rounded to the fact's step and clipped to its limits. */
export interface Derived {
  readonly bounds: Bounds;
  readonly recorded: Truth;
  readonly none?: true;
  readonly assumed?: true;
}

/** What is known about facts, parameters and tables before there is a case. */
export interface Dictionary {
  fact(id: string): Fact | undefined;
  parameter(id: string): Pick<Parameter, 'type' | 'unit' | 'codes'> | undefined;
  table(id: string): Table | undefined;
}

/** One thing wrong with a derivation; `at` is a JSON Pointer below it. */
export interface DerivationFault {
  readonly at: string;
  readonly expected: string;
  readonly received: string;
}

/** Instants at which a derived fact may cross one of its cuts, and the cuts its operands must watch instead. */
export interface Watch {
  readonly instants: readonly number[];
  readonly pass: readonly (readonly [fact: string, cuts: readonly number[]])[];
}

export interface WatchInputs extends Inputs {
  /** The forecast looks at instants in (from, to]. */
  readonly from: number;
  readonly to: number;
}

/** The contract of one kind of derivation. The list of kinds is closed: each must bring all parts. */
export interface DerivationKind<K extends Derivation> {
  /** Fact ids it reads, in the order they stand. */
  facts(derivation: K): readonly string[];
  /** Whether the types and units fit; a fault each for what does not. */
  check(derivation: K, fact: Fact, dictionary: Dictionary): readonly DerivationFault[];
  evaluate(derivation: K, fact: Fact, inputs: Inputs): Derived;
  /**
   * Set where what it makes of facts that nobody supplied, other than an instant, is the same at every moment and in
   * every zone: such a result is worked out before there is a case.
   */
  readonly timeless?: true;
  /** The facts whose answers would make it exact. */
  asks(derivation: K, inputs: Inputs): readonly string[];
  /** Where it may cross `cuts` as time alone passes. */
  watch(derivation: K, fact: Fact, cuts: readonly number[], inputs: WatchInputs): Watch;
}

export const interval = (low: number, high: number): Interval => ({ kind: 'interval', low, high });

export const NOTHING_TO_WATCH: Watch = { instants: [], pass: [] };

export const isExactInterval = (bounds: Interval): boolean => bounds.low === bounds.high;

/** Ends of a number, instant or day; a fact of another type has no ends. */
export function ends(reading: Reading): Interval {
  return reading.bounds.kind === 'interval' ? reading.bounds : interval(-Infinity, Infinity);
}

const isFactOperand = (operand: Operand): operand is string => typeof operand === 'string';

/** Ends of an operand: a fact, the moment of the case, a local choice or a constant. */
export function operandEnds(operand: Operand, inputs: Inputs): Interval {
  if (typeof operand === 'string') return operand === 'asOf' ? inputs.asOf : ends(inputs.reading(operand));
  const value = 'parameter' in operand ? Number(inputs.parameter(operand.parameter)) : operand.value;
  return interval(value, value);
}

export const factsOf = (operands: readonly Operand[]): string[] =>
  operands.filter(isFactOperand).filter((operand) => operand !== 'asOf');

/** Recorded where every fact among its operands is. */
export function allRecorded(operands: readonly Operand[], inputs: Inputs): Truth {
  let all: number = TRUE;
  for (const one of operands) {
    if (typeof one === 'string' && one !== 'asOf') all &= inputs.reading(one).recorded;
  }
  return all as Truth;
}

/** Facts that are not exactly known: the default answer to what to ask. */
export const inexact = (facts: readonly string[], inputs: Inputs): string[] =>
  facts.filter((id) => inputs.reading(id).cause !== undefined);
