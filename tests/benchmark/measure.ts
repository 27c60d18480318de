/// <reference types="node" />

/** One way of doing the same work; a run does it for so many cases, and a lap is as many runs as take long enough. */
export interface Lap {
  readonly name: string;
  readonly cases: number;
  /** What must lie ready for so many runs and is not counted. */
  readonly prepare?: (runs: number) => void;
  /** No stretch has more runs than this, where making them ready takes long. */
  readonly most?: number;
  readonly run: () => unknown;
}

/** Time on a processor, in microseconds a case; the middle half of all rounds lies between the quartiles. */
export interface Sample {
  readonly name: string;
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/** User and system time of the whole process, the collector's threads included. */
const onCpu = (): number => {
  const { user, system } = process.cpuUsage();
  return user + system;
};

/** All that is garbage, or what was made lately: the latter looks at little else and leaves compiled code alone. */
const collect = (type: 'major' | 'minor'): void => {
  (globalThis as { gc?: (how: { type: string }) => void }).gc?.({ type });
};

/** The last result, so that no work is left out because nobody looks at it. */
const sink: { kept?: unknown } = {};

const QUIET_US = 300;
const LOOK_MS = 4;
const MOST_LOOKS = 25;

/**
 * Waits until the threads beside this one are done: compiling what was prepared, and sweeping, may take longer than
 * the lap itself. What a lap gives them to do is counted, what they still do for another is not.
 */
async function quiet(): Promise<void> {
  for (let look = 0; look < MOST_LOOKS; look += 1) {
    const before = onCpu();
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    if (onCpu() - before < QUIET_US) return;
  }
}

/**
 * Milliseconds that a lap goes on before it is counted, and while it is. Collecting all garbage throws away machine code
 * and what is known of the shapes of objects wherever none of them was alive just then, for every engine, and each needs
 * a few tenths of a second of its own work to win it back. Without that stretch a lap says how fast an engine starts, and
 * two runs of the benchmark differ by a factor of two. What is counted is long beside one collection of young garbage.
 */
const [WARM_MS, COUNTED_MS] = [400, 300];
const MOST_PARTS = 4;

interface Pace {
  readonly warm: number;
  readonly counted: number;
}

async function repeat({ run }: Lap, runs: number): Promise<void> {
  for (let done = 0; done < runs; done += 1) {
    const result = run();
    // Only what waits is waited for.
    sink.kept = result instanceof Promise ? await result : result;
  }
}

/** How many runs fill the two stretches; at least one each. The work goes on until it is at its usual speed. */
async function paceOf(lap: Lap): Promise<Pace> {
  let [spent, least] = [0, Number.POSITIVE_INFINITY];
  const { most = Number.POSITIVE_INFINITY } = lap;
  for (let runs = 0; runs < 2 || (spent < 2 * WARM_MS && runs < most); runs += 1) {
    lap.prepare?.(1);
    const start = onCpu();
    await repeat(lap, 1);
    const time = (onCpu() - start) / 1000;
    spent += time;
    least = Math.min(least, time);
  }
  const runsFor = (ms: number): number => Math.min(most, Math.ceil(ms / least));
  return { warm: runsFor(WARM_MS), counted: runsFor(COUNTED_MS) };
}

/**
 * Microseconds a run. Garbage that another lap left is collected before the count, as is what the stretch before it
 * made lately; what the counted stretch makes, it pays for.
 */
async function lapTime(lap: Lap, { warm, counted }: Pace): Promise<number> {
  const parts = Math.min(MOST_PARTS, warm);
  const part = Math.ceil(warm / parts);
  lap.prepare?.(parts * part + counted);
  collect('major');
  await quiet();
  // What is compiled beside the work is waited for, so that the next part of it runs that.
  for (let done = 0; done < parts; done += 1) {
    await repeat(lap, part);
    await quiet();
  }
  collect('minor');
  const start = onCpu();
  await repeat(lap, counted);
  collect('minor');
  return (onCpu() - start) / counted;
}

/** Runs all laps once a round, each round beginning with another, so that a slow moment of the machine hits all. */
export async function interleaved(
  laps: readonly Lap[],
  rounds: number,
): Promise<ReadonlyMap<string, Sample>> {
  const paced: { readonly lap: Lap; readonly pace: Pace; readonly times: number[] }[] = [];
  for (const lap of laps) paced.push({ lap, pace: await paceOf(lap), times: [] });
  for (let round = 0; round < rounds; round += 1) {
    for (let index = 0; index < paced.length; index += 1) {
      const { lap, pace, times } = paced[(index + round) % paced.length]!;
      times.push((await lapTime(lap, pace)) / lap.cases);
    }
  }
  return new Map(paced.map(({ lap: { name }, times }) => [name, sampleOf(name, times)]));
}

function sampleOf(name: string, times: readonly number[]): Sample {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  return { name, low: at(0.25), median: at(0.5), high: at(0.75) };
}

/** A lap over one case after another. */
export function oneByOne<T>(name: string, cases: readonly T[], run: (given: T) => unknown): Lap {
  const all = async (): Promise<void> => {
    for (const given of cases) {
      const result = run(given);
      sink.kept = result instanceof Promise ? await result : result;
    }
  };
  return { name, cases: cases.length, run: all };
}
