/// <reference types="node" />
import { parseArgs } from 'node:util';

export interface Arguments {
  readonly rules: readonly number[];
  readonly cases: readonly number[];
  readonly seeds: readonly number[];
  readonly missing: number;
  readonly rounds: number;
  /** Size of the stream in MB; 0 leaves it out. */
  readonly stream: number;
  /** Writes the table into README.md. */
  readonly write: boolean;
}

const USAGE = `npm run benchmark -- [options]
  --rules 80,800,8000     sizes of the invented rule sets
  --cases 1000,100000     cases judged at once
  --seeds 20261126,7      the first is timed; outcomes are compared for all
  --missing 0.15          chance that a fact is missing from a case
  --rounds 9              rounds of every engine (a third of them from 8,000 rules on)
  --stream 64             MB sent through "dwellset assess -"; 0 leaves it out
  --write                 writes the table into README.md`;

/** Throws a TypeError that says what is wrong and how it is called. */
export function readArguments(given: readonly string[]): Arguments {
  const { values } = parseArgs({
    args: [...given],
    options: {
      rules: { type: 'string', default: '80,800,8000' },
      cases: { type: 'string', default: '1000,100000' },
      seeds: { type: 'string', default: '20261126,7' },
      missing: { type: 'string', default: '0.15' },
      rounds: { type: 'string', default: '9' },
      stream: { type: 'string', default: '64' },
      write: { type: 'boolean', default: false },
    },
  });
  const numbers = (name: string, text: string, least: number): number[] => {
    const found = text.split(',').map(Number);
    if (found.some((one) => !(one >= least))) throw new TypeError(`--${name} ${text}\n\n${USAGE}`);
    return found;
  };
  const [missing, rounds, stream] = [
    numbers('missing', values.missing, 0)[0]!,
    numbers('rounds', values.rounds, 3)[0]!,
    numbers('stream', values.stream, 0)[0]!,
  ];
  return {
    rules: numbers('rules', values.rules, 1),
    cases: numbers('cases', values.cases, 1),
    seeds: numbers('seeds', values.seeds, 0),
    missing,
    rounds,
    stream,
    write: values.write,
  };
}
