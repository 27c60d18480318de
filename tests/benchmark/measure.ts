/// <reference types="node" />

/** One way of doing the same work; a lap does it for so many cases. */
export interface Lap {
  readonly name: string;
  readonly cases: number;
  /** What must lie ready and is not counted. */
  readonly prepare?: () => void;
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

/** Whoever made the garbage pays for it: what another lap left behind is collected outside the count. */
const collect = (): void => {
  (globalThis as { gc?: () => void }).gc?.();
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

async function lapTime({ prepare, run }: Lap): Promise<number> {
  prepare?.();
  collect();
  await quiet();
  const start = onCpu();
  const result = run();
  // Only what waits is waited for.
  sink.kept = result instanceof Promise ? await result : result;
  return onCpu() - start;
}

/** Runs all laps once a round, each round beginning with another, so that a slow moment of the machine hits all. */
export async function interleaved(
  laps: readonly Lap[],
  rounds: number,
): Promise<ReadonlyMap<string, Sample>> {
  const times = new Map<string, number[]>(laps.map(({ name }) => [name, []]));
  for (let round = -1; round < rounds; round += 1) {
    for (let index = 0; index < laps.length; index += 1) {
      const lap = laps[(index + round + 1) % laps.length]!;
      const time = await lapTime(lap);
      // The first round warms up.
      if (round >= 0) times.get(lap.name)!.push(time / lap.cases);
    }
  }
  return new Map([...times].map(([name, own]) => [name, sampleOf(name, own)]));
}

function sampleOf(name: string, times: readonly number[]): Sample {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))]!;
  return { name, median: at(0.5), low: at(0.25), high: at(0.75) };
}

/** A lap over one case after another: as many of them as fill the time asked for, found by trying. */
export async function oneByOne<T>(
  name: string,
  cases: readonly T[],
  run: (given: T) => unknown,
  leastMs: number,
): Promise<Lap> {
  const times = async (count: number): Promise<void> => {
    for (let index = 0; index < count; index += 1) {
      const result = run(cases[index % cases.length]!);
      sink.kept = result instanceof Promise ? await result : result;
    }
  };
  let count = 1;
  for (let spent = 0; ; count *= 2) {
    const start = onCpu();
    await times(count);
    spent = (onCpu() - start) / 1000;
    if (spent >= leastMs || count >= 65_536) break;
  }
  return { name, cases: count, run: () => times(count) };
}
