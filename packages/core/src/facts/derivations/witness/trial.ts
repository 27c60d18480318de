import type { Constant } from '../../../release/condition.ts';
import type { Fact } from '../../../release/fact.ts';
import type { Table } from '../../../release/parameter.ts';
import { type Bounds, domain, exactValue, type Interval, type Reading } from '../../reading.ts';
import { roundToStep } from '../../rounding.ts';
import { FALSE, TRUE, type Truth, UNKNOWN } from '../../truth.ts';
import { type ConclusionRead, type Inputs, interval } from '../kind.ts';
import { kindOf } from '../kinds.ts';

/** What is given before a witness is looked for. */
export interface WitnessInputs {
  fact(id: string): Fact;
  parameter(id: string): Constant;
  table(id: string): Table;
  codes(list: string): readonly string[];
  /** What another rule set concludes. */
  conclusion(set: string): ConclusionRead;
  /** The moment of the case, in ms since 1970. */
  readonly asOf: number;
  readonly zone: string;
}

/**
 * An exact value on the scale of its fact: a number in its unit, ms or days since 1970, yes or no, a code, text; of
 * several codes those answered yes, all others being no.
 */
export type ExactValue = number | boolean | string | readonly string[];
/** `null`: the record is known to be empty. */
export type WitnessValue = ExactValue | null;

/** Tries values of the operands: what does the derived fact read as then? */
export class Trial {
  readonly fact: Fact;
  readonly inputs: WitnessInputs;
  private readonly readings = new Map<string, Reading>();
  private readonly scene: Inputs;
  /** Evaluations left before a search is given up. */
  left = 300_000;

  constructor(fact: Fact, inputs: WitnessInputs) {
    this.fact = fact;
    this.inputs = inputs;
    this.scene = {
      reading: (id) => this.readings.get(id)!,
      parameter: inputs.parameter,
      table: inputs.table,
      codes: inputs.codes,
      conclusion: inputs.conclusion,
      asOf: interval(inputs.asOf, inputs.asOf),
      zone: inputs.zone,
    };
    for (const id of this.operands) this.put(id, this.whole(id), UNKNOWN);
  }

  get operands(): readonly string[] {
    const from = this.fact.from!;
    return [...new Set(kindOf(from).facts(from))];
  }

  put(id: string, bounds: Bounds, recorded: Truth = TRUE): void {
    this.readings.set(id, { fact: this.inputs.fact(id), bounds, recorded });
  }

  set(id: string, value: WitnessValue): void {
    if (value === null) this.put(id, this.whole(id), FALSE);
    else this.put(id, this.boundsOf(id, value));
  }

  /** Its bounds, rounded to its step but not yet held against its limits; nothing where it has no value. */
  result(): Bounds | undefined {
    this.left -= 1;
    const from = this.fact.from!;
    const { bounds, none } = kindOf(from).evaluate(from, this.fact, this.scene);
    if (none) return undefined;
    const { step } = this.fact;
    return bounds.kind === 'interval'
      ? interval(roundToStep(bounds.low, step), roundToStep(bounds.high, step))
      : bounds;
  }

  ends(): Interval {
    const bounds = this.result();
    return bounds?.kind === 'interval' ? bounds : interval(-Infinity, Infinity);
  }

  gives(target: ExactValue): boolean {
    const bounds = this.result();
    const value = bounds && exactValue(bounds);
    if (value === undefined) return false;
    if (Array.isArray(target)) {
      return Array.isArray(value) && value.length === target.length && target.every((c) => value.includes(c));
    }
    return typeof target === 'boolean' ? value === String(target) : value === target;
  }

  /** Whether a fact can have this exact value at all: its type, limits, step and codes. */
  admits(fact: Fact, value: ExactValue): boolean {
    const codes = fact.codes === undefined ? [] : this.inputs.codes(fact.codes);
    switch (fact.type) {
      case 'number': {
        const [low, high] = fact.limits ?? [-Infinity, Infinity];
        return (
          typeof value === 'number' &&
          value === roundToStep(value, fact.step) &&
          value >= low &&
          value <= high
        );
      }
      case 'date-time':
        return Number.isInteger(value) && Number(value) <= this.inputs.asOf;
      case 'date':
        return Number.isInteger(value);
      case 'boolean':
        return typeof value === 'boolean';
      case 'code':
        return typeof value === 'string' && codes.includes(value);
      case 'codes':
        return Array.isArray(value) && value.every((code) => codes.includes(code));
      case 'text':
        return typeof value === 'string';
      case 'list':
        return false;
    }
  }

  /** No instant may lie before the one that its fact says it follows. */
  inOrder(values: ReadonlyMap<string, WitnessValue>): boolean {
    return [...values].every(([id, value]) => {
      const before = values.get(this.inputs.fact(id).notBefore ?? '');
      return typeof value !== 'number' || typeof before !== 'number' || value >= before;
    });
  }

  private whole(id: string): Bounds {
    const fact = this.inputs.fact(id);
    return domain(fact, fact.codes === undefined ? [] : this.inputs.codes(fact.codes), this.inputs.asOf);
  }

  private boundsOf(id: string, value: ExactValue): Bounds {
    if (typeof value === 'number') return interval(value, value);
    const { type, codes } = this.inputs.fact(id);
    if (typeof value === 'object') {
      const listed = this.inputs.codes(codes ?? '');
      return {
        kind: 'answers',
        answers: new Map(listed.map((code) => [code, value.includes(code) ? TRUE : FALSE])),
      };
    }
    return type === 'text'
      ? { kind: 'text', text: String(value) }
      : { kind: 'possible', possible: [String(value)] };
  }
}
