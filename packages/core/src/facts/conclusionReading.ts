import type { Cause } from '../explain/assessment.ts';
import type { Fact } from '../release/fact.ts';
import type { ConclusionRead } from './derivations/kind.ts';
import type { PlainReading } from './plain.ts';
import type { Bounds, Reading } from './reading.ts';
import type { Truth } from './truth.ts';

/** What is read of a conclusion, shared by all cases that conclude alike, with what keeps it open in one of them. */
export class ConclusionReading implements PlainReading {
  readonly fact: Fact;
  readonly bounds: Bounds;
  readonly recorded: Truth;
  readonly plain: number;
  declare readonly cause?: Cause;
  declare readonly none?: true;
  private readonly concluded: ConclusionRead;

  constructor({ fact, bounds, recorded, cause, none }: Reading, plain: number, concluded: ConclusionRead) {
    this.fact = fact;
    this.bounds = bounds;
    this.recorded = recorded;
    this.plain = plain;
    if (cause !== undefined) this.cause = cause;
    if (none) this.none = none;
    this.concluded = concluded;
  }

  /** The facts that it waits for: it does not follow from them. */
  get inputs(): readonly string[] {
    return this.concluded.waitsFor;
  }
}
