import { type ConclusionRead, type Inputs, interval, NOTHING_CONCLUDED } from '../facts/derivations/kind.ts';
import { derive } from '../facts/derive.ts';
import type { Moment } from '../facts/moment.ts';
import { isOpen } from '../facts/plain.ts';
import type { CaseReadings } from '../facts/readFacts.ts';
import type { Interval, Reading } from '../facts/reading.ts';
import { Readings } from '../facts/readings.ts';
import { TRUE, type Truth, truth } from '../facts/truth.ts';
import { type Board, mark } from '../plan/board.ts';
import { leafTruth } from '../plan/leaf.ts';
import { ALL, NOT, type Plan } from '../plan/plan.ts';

/** Labels say the same at every moment, unless the case was recorded at none that can be used. */
export const isUsual = ({ asOf, recordedAt, recordedInstant }: Moment): boolean =>
  Number.isFinite(asOf) &&
  (recordedAt === undefined || (recordedInstant !== undefined && recordedInstant <= asOf));

/** All options of a plan beside one patient. */
export class BoardRead implements Inputs {
  /** Something that follows from an option and the patient lies outside its limits. */
  hasProblem = false;
  readonly asOf: Interval;
  readonly zone: string;
  private readonly plan: Plan;
  private readonly board: Board;
  private readonly patient: CaseReadings;
  private readonly truths: Uint8Array;
  private readonly planes: Int32Array;
  /** Places of facts that are not what they are beside a patient of whom nothing is said. */
  private readonly moved = new Set<number>();
  private readonly asked = new Map<number, Uint8Array>();
  private readonly read = new Map<number, Readings>();
  private option = 0;

  constructor(plan: Plan, board: Board, patient: CaseReadings, truths: Uint8Array) {
    this.plan = plan;
    this.board = board;
    this.patient = patient;
    this.truths = truths;
    this.asOf = interval(patient.moment.asOf, patient.moment.asOf);
    this.zone = patient.moment.zone;
    this.planes = board.blank.slice();
    this.move();
    this.runGates();
  }

  /** Truths of every node for one option. */
  truthsOf(option: number): Uint8Array {
    const { board } = this;
    const known = this.asked.get(option);
    if (known) return known;
    const all = this.truths.slice();
    board.places.forEach((place, plane) => {
      all[place] = this.bits(plane, option);
    });
    this.asked.set(option, all);
    return all;
  }

  /** Everything that is read beside one option. */
  readingsOf(option: number): Readings {
    const known = this.read.get(option);
    if (known) return known;
    const { readings, moment } = this.patient;
    const row = readings.row.slice();
    for (const { place, derivation } of this.plan.optionFacts.slots) {
      const reading = this.beside(option, place)!;
      // What a label says counts as recorded when the case was.
      const isDated =
        derivation === undefined && reading.recorded === TRUE && moment.recordedAt !== undefined;
      row[place] = isDated ? { ...reading, at: moment.recordedAt } : reading;
    }
    const made = new Readings(this.plan.optionFacts, row, moment);
    this.read.set(option, made);
    return made;
  }

  /** What is read of a fact beside an option, but for when it was recorded. */
  readingOf(option: number, id: string): Reading | undefined {
    const place = this.plan.optionFacts.places.get(id);
    return place === undefined ? undefined : this.beside(option, place);
  }

  private beside(option: number, place: number): Reading | undefined {
    const before = this.option;
    this.option = option;
    const found = this.at(place);
    this.option = before;
    return found;
  }

  reading(id: string): Reading {
    return this.at(this.plan.optionFacts.places.get(id)!)!;
  }

  parameter(id: string): ReturnType<Inputs['parameter']> {
    return this.plan.optionFacts.parameters.get(id)!;
  }

  table(id: string): ReturnType<Inputs['table']> {
    return this.plan.optionFacts.tables.get(id)!;
  }

  codes(list: string): readonly string[] {
    return this.plan.optionFacts.codes.get(list)!;
  }

  conclusion(): ConclusionRead {
    return NOTHING_CONCLUDED;
  }

  private at(place: number): Reading | undefined {
    const { optionFacts } = this.plan;
    if (place < optionFacts.first) return this.patient.readings.undated(place);
    const row = this.board.rows[this.option]!;
    if (!this.moved.has(place)) return row[place];
    return derive(optionFacts.slots[place - optionFacts.first]!, this);
  }

  /** Works out again what rests on anything that the case says. */
  private move(): void {
    const { board, planes, moved, patient } = this;
    const { row } = patient.readings;
    for (const { slot, leaves } of board.moving) {
      const { places } = slot.derivation!;
      const isMoved = (place: number): boolean =>
        moved.has(place) || row[place] !== this.plan.blank.row[place] || isOpen(row[place]);
      if (!places.some(isMoved)) continue;
      moved.add(slot.place);
      for (this.option = 0; this.option < board.rows.length; this.option += 1) {
        const reading = this.at(slot.place)!;
        if (reading.cause === 'impossible') this.hasProblem = true;
        for (const { plane, test } of leaves) {
          mark(planes, board.words, plane, this.option, leafTruth(test, reading));
        }
      }
    }
  }

  private bits(plane: number, option: number): Truth {
    const { planes, board } = this;
    const [at, bit] = [plane * 2 * board.words + (option >>> 5), option & 31];
    return truth(((planes[at]! >>> bit) & 1) === 1, ((planes[at + board.words]! >>> bit) & 1) === 1);
  }

  /** The gates in order, 32 options at a time. */
  private runGates(): void {
    const { planes, truths } = this;
    const { gates, words } = this.board;
    for (let next = 0; next < gates.length; ) {
      const op = gates[next]!;
      const out = gates[next + 1]! * 2 * words;
      const end = next + 3 + gates[next + 2]!;
      for (let word = 0; word < words; word += 1) {
        let certain = op === ALL ? -1 : 0;
        let possible = certain;
        for (let at = next + 3; at < end; at += 1) {
          const input = gates[at]!;
          const from = input * 2 * words + word;
          const own = input < 0 ? truths[~input]! : 0;
          const isCertain = input < 0 ? -(own & 1) : planes[from]!;
          const isPossible = input < 0 ? -(own >>> 1) : planes[from + words]!;
          if (op === ALL) {
            certain &= isCertain;
            possible &= isPossible;
          } else {
            certain |= isCertain;
            possible |= isPossible;
          }
        }
        planes[out + word] = op === NOT ? ~possible : certain;
        planes[out + words + word] = op === NOT ? ~certain : possible;
      }
      next = end;
    }
  }
}
