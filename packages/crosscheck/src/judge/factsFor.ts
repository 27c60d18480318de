import type { Reading } from '@dwellset/core';
import { boundsOf, type FactBounds } from '../bounds/factBounds.ts';
import type { GroupEngine } from '../engine/groupEngine.ts';

/** The bounds of every fact that an engine's rules read; one without a reading is left to the engine to refuse. */
export function factsFor(
  engine: GroupEngine,
  readings: ReadonlyMap<string, Reading>,
): ReadonlyMap<string, FactBounds> {
  const given = new Map<string, FactBounds>();
  for (const id of engine.facts) {
    const reading = readings.get(id);
    if (reading) given.set(id, boundsOf(reading));
  }
  return given;
}
