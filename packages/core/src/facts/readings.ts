import type { Reading } from './reading.ts';

/** Readings by fact id over a row of places, so that a case costs one array and no map of its own. */
export class Readings implements ReadonlyMap<string, Reading> {
  readonly row: (Reading | undefined)[];
  private readonly places: ReadonlyMap<string, number>;

  constructor(places: ReadonlyMap<string, number>, row: (Reading | undefined)[]) {
    this.places = places;
    this.row = row;
  }

  get(id: string): Reading | undefined {
    const place = this.places.get(id);
    return place === undefined ? undefined : this.row[place];
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
    for (const [id, place] of this.places) {
      const reading = this.row[place];
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
