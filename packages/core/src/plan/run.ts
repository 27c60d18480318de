import type { Row } from '../facts/readings.ts';
import { FALSE, not, TRUE, type Truth, UNKNOWN } from '../facts/truth.ts';
import { exactTruth, leafTruth } from './leaf.ts';
import { ALL, NOT, type Program } from './plan.ts';

/**
 * Fills the places of one program: first its leaves from the readings, then its gates in order. Leaves over a fact
 * that reads as in `blank` are left as they are.
 */
export function run(program: Program, row: Row, truths: Uint8Array, blank: Row = NOTHING_BLANK): void {
  for (const { place, leaves } of program.facts) {
    const entry = row[place];
    if (entry === undefined) {
      // A fact that is not read yet cannot decide anything yet.
      for (const { at } of leaves) truths[at] = UNKNOWN;
    } else if (typeof entry === 'number') {
      for (const { at, test } of leaves) truths[at] = exactTruth(test, entry);
    } else if (entry !== blank[place]) {
      for (const { at, test } of leaves) truths[at] = leafTruth(test, entry);
    }
  }
  runGates(program.gates, truths);
}

const NOTHING_BLANK: Row = [];

/** Works out the gates of a program from the truths of its leaves. */
export function runGates(gates: Int32Array, truths: Uint8Array): void {
  let next = 0;
  while (next < gates.length) {
    const op = gates[next]!;
    const at = gates[next + 1]!;
    const end = next + 3 + gates[next + 2]!;
    let result: number = op === ALL ? TRUE : FALSE;
    if (op === ALL) for (let input = next + 3; input < end; input += 1) result &= truths[gates[input]!]!;
    else for (let input = next + 3; input < end; input += 1) result |= truths[gates[input]!]!;
    truths[at] = op === NOT ? not(result as Truth) : result;
    next = end;
  }
}
