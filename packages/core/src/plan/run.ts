import type { Row } from '../facts/readings.ts';
import { FALSE, not, TRUE, type Truth } from '../facts/truth.ts';
import { ALL, NOT, type Program } from './plan.ts';

/**
 * Fills the places of one program: first its leaves from the readings, then its gates in order. Leaves over a fact
 * that reads as in `blank` are left as they are.
 */
export function run(program: Program, row: Row, truths: Uint8Array, blank: Row = NOTHING_BLANK): void {
  for (const leaves of program.facts) {
    const entry = row[leaves.place];
    // A fact that is not read yet cannot decide anything yet.
    if (entry === undefined || entry !== blank[leaves.place]) leaves.fill(entry, truths);
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
