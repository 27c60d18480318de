import { Concluded } from '../evaluate/conclusion.ts';
import type { Evaluation } from '../evaluate/evaluate.ts';
import { type Inputs, interval, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import { kindOf } from '../facts/derivations/kinds.ts';
import type { Bounds, Reading } from '../facts/reading.ts';
import { UNKNOWN } from '../facts/truth.ts';
import type { Cause } from './assessment.ts';
import { leavesOf } from './shown.ts';

/** What nobody can answer is never asked again. */
const CANNOT_BE_KNOWN: ReadonlySet<Cause> = new Set(['asked-unknown', 'asked-declined', 'not-applicable']);

/** What is known beside the patient, or beside one option, and which facts somebody can be asked for. */
export class Beside {
  readonly truths: Uint8Array;
  readonly readings: Pick<ReadonlyMap<string, Reading>, 'get'>;
  private readonly evaluation: Evaluation;
  private readonly inputs: Inputs;
  private readonly based = new Map<string, readonly string[]>();
  private readonly states = new Map<string, number>();

  constructor(
    evaluation: Evaluation,
    { truths, readings }: Pick<Beside, 'truths' | 'readings'> = evaluation,
  ) {
    this.evaluation = evaluation;
    this.truths = truths;
    this.readings = readings;
    const { optionFacts } = evaluation.plan;
    this.inputs = {
      reading: (id) => readings.get(id)!,
      parameter: (id) => optionFacts.parameters.get(id)!,
      table: (id) => optionFacts.tables.get(id)!,
      codes: (list) => optionFacts.codes.get(list)!,
      conclusion: (id) => {
        const set = evaluation.plan.sets.find(({ release }) => release.id === id);
        return set ? new Concluded(set, evaluation.truths) : NOTHING_CONCLUDED;
      },
      asOf: interval(evaluation.asOf, evaluation.asOf),
      zone: evaluation.zone,
    };
  }

  /** Base facts that an answer about `fact` has to come from; none where nobody can give it. */
  baseFacts(fact: string): readonly string[] {
    const found = this.based.get(fact) ?? this.findBaseFacts(fact);
    this.based.set(fact, found);
    return found;
  }

  /** A number for all of an open fact that what is asked about it depends on. */
  state(fact: string): number {
    const found = this.states.get(fact) ?? this.findState(fact);
    this.states.set(fact, found);
    return found;
  }

  private findState(id: string): number {
    const reading = this.readings.get(id)!;
    const found = ofReading.get(reading);
    if (found !== undefined) return found;
    const { fact, recorded, bounds } = reading;
    const { plan } = this.evaluation;
    // An instant lies before the moment of the case, which means nothing to who asks only whether it is recorded.
    const isLookedAt =
      fact.type !== 'date-time' ||
      leavesOf(plan).some((leaf) => leaf?.fact === id && leaf.test.kind !== 'recorded');
    const state = numberOf(`${recorded} ${isLookedAt ? textOf(bounds) : ''} ${this.baseFacts(id).join()}`);
    // What follows from other facts is asked of those, whatever it reads as itself.
    if (fact.from === undefined) ofReading.set(reading, state);
    return state;
  }

  private findBaseFacts(fact: string): readonly string[] {
    if (fact.startsWith('option.')) return [];
    const reading = this.inputs.reading(fact);
    // An exact value may still leave open whether anybody recorded it.
    if (reading.cause === undefined && reading.recorded !== UNKNOWN) return [];
    if (reading.inputs === undefined || reading.fact.from === undefined) {
      return reading.cause !== undefined && CANNOT_BE_KNOWN.has(reading.cause) ? [] : [fact];
    }
    const asked = kindOf(reading.fact.from).asks(reading.fact.from, this.inputs);
    const base = asked.map((id) => this.baseFacts(id));
    // Each of the facts that a conclusion waits for may settle it alone.
    if ('conclusion' in reading.fact.from) return [...new Set(base.flat())];
    // One input that nobody can answer leaves the derived fact open whatever the others are.
    return base.some((ids) => ids.length === 0) ? [] : [...new Set(base.flat())];
  }
}

/** What bounds say, as text. */
const textOf = (bounds: Bounds): string =>
  (bounds.kind === 'answers' ? [...bounds.answers] : Object.values(bounds)).join();

/** Of readings that cases share. */
const ofReading = new WeakMap<Reading, number>();

/** So many states of facts are told apart again; of the others each time counts as another. */
const MOST_STATES = 20_000;
const numbers = new Map<string, number>();
let last = 0;

function numberOf(state: string): number {
  const found = numbers.get(state);
  if (found !== undefined) return found;
  if (numbers.size >= MOST_STATES) numbers.clear();
  last += 1;
  numbers.set(state, last);
  return last;
}
