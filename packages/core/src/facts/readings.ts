import type { Fact } from '../release/fact.ts';
import type { FactTable } from './factTable.ts';
import type { Moment } from './moment.ts';
import { type Entry, fullReading, isPlain, type PlainReading, readingOf } from './plain.ts';
import type { Reading } from './reading.ts';

export type Row = readonly (Entry | undefined)[];

/**
 * Readings by fact id over a row of places, so that a case costs one array and no map of its own. What says no more
 * than a value is kept as that, and put together when somebody looks.
 */
export class Readings implements ReadonlyMap<string, Reading> {
  readonly row: Row;
  private readonly facts: Pick<FactTable, 'places' | 'byPlace'>;
  private readonly moment: Moment;

  constructor(facts: Pick<FactTable, 'places' | 'byPlace'>, row: Row, moment: Moment) {
    this.facts = facts;
    this.row = row;
    this.moment = moment;
  }

  get(id: string): Reading | undefined {
    const place = this.facts.places.get(id);
    return place === undefined ? undefined : this.at(place);
  }

  /** What is read of the fact at a place. */
  at(place: number): Reading | undefined {
    const entry = this.row[place];
    const { asOf, recordedAt } = this.moment;
    return entry === undefined ? undefined : fullReading(entry, this.facts.byPlace[place]!, asOf, recordedAt);
  }

  /** What the case states of the fact at a place, where it says no more than a value. */
  plainAt(place: number): number | PlainReading | undefined {
    const entry = this.row[place];
    if (entry === undefined || this.facts.byPlace[place]!.derivation !== undefined) return undefined;
    return isPlain(entry) ? entry : undefined;
  }

  factAt(place: number): Fact {
    return this.facts.byPlace[place]!.fact;
  }

  /** When the case was recorded, and with it all that it states plainly. */
  get recordedAt(): string | undefined {
    return this.moment.recordedAt;
  }

  /** The same, when it was recorded left open. */
  undated(place: number): Reading | undefined {
    const entry = this.row[place];
    return entry === undefined ? undefined : readingOf(entry, this.facts.byPlace[place]!, this.moment.asOf);
  }

  has(id: string): boolean {
    return this.get(id) !== undefined;
  }

  get size(): number {
    return this.row.filter((reading) => reading !== undefined).length;
  }

  forEach(visit: (reading: Reading, id: string, all: ReadonlyMap<string, Reading>) => void): void {
    for (const [id, reading] of this) visit(reading, id, this);
  }

  *entries(): MapIterator<[string, Reading]> {
    for (const [id, place] of this.facts.places) {
      const reading = this.at(place);
      if (reading !== undefined) yield [id, reading];
    }
  }

  *keys(): MapIterator<string> {
    for (const [id] of this.entries()) yield id;
  }

  *values(): MapIterator<Reading> {
    for (const [, reading] of this.entries()) yield reading;
  }

  [Symbol.iterator](): MapIterator<[string, Reading]> {
    return this.entries();
  }
}
