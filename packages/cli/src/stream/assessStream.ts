/// <reference types="node" />
import { availableParallelism } from 'node:os';
import type { Readable, Writable } from 'node:stream';
import { assess } from '@dwellset/core';
import type { BlockDone, Reasons } from './assessBlock.ts';
import { deskOf } from './desk.ts';
import { ownLane, workerLanes } from './lanes.ts';
import { lineBlocks } from './lineBlocks.ts';
import { headOf } from './record.ts';

export interface StreamOptions {
  /** The options of `dwellset assess` that say which rules run, e.g. `--hospital=harrowmere`. */
  readonly argv: readonly string[];
  /** With `none` a line says what the head does not; else it holds the whole assessment. */
  readonly reasons: Reasons;
  /** Threads that assess; 1 is the calling thread itself. One fewer than there are cores unless stated. */
  readonly threads?: number;
  /** Ends the stream after the block that is being written. */
  readonly signal?: AbortSignal;
  readonly progress?: (sofar: StreamProgress) => void;
}

export interface StreamProgress {
  readonly cases: number;
  /** Lines that held no case; each is reported in its place. */
  readonly bad: number;
  /** Bytes read. */
  readonly bytes: number;
}

export interface StreamDone extends StreamProgress {
  /** Why it ended: no more input, a reader that stopped reading, or the signal. */
  readonly ended: 'input' | 'reader' | 'signal';
}

/** Small enough for a dozen cases: what is under way at once is what a stream keeps in memory. */
const BLOCK_BYTES = 32 * 1024;
const MOST_THREADS = 8;

/** The thread that reads and writes has a core of its own: two threads on two cores were hardly faster than one. */
const usualThreads = (): number => Math.max(1, Math.min(MOST_THREADS, availableParallelism() - 1));

/**
 * Assesses a stream of cases, one JSON document a line, and writes one line for each in the same order behind a
 * head line. Memory stays the same however long the stream is: nothing is read while the reader is behind.
 */
export async function assessStream(
  input: Readable,
  output: Writable,
  { argv, reasons, threads = usualThreads(), signal, progress }: StreamOptions,
): Promise<StreamDone> {
  const desk = deskOf(argv, reasons);
  const lanes = threads > 1 ? workerLanes(threads, { argv, reasons }) : ownLane(desk);
  const sofar = { cases: 0, bad: 0, bytes: 0 };
  const underWay: Promise<BlockDone>[] = [];
  const stop = (): unknown => input.destroy();
  signal?.addEventListener('abort', stop);
  let broken: NodeJS.ErrnoException | undefined;
  const onError = (error: NodeJS.ErrnoException): void => {
    broken ??= error;
    stop();
  };
  output.on('error', onError);
  const isOver = (): boolean => broken !== undefined || signal?.aborted === true;
  const writeNext = async (): Promise<void> => {
    const done = await underWay.shift()!;
    if (isOver()) return;
    if (!output.write(done.bytes)) await drained(output);
    sofar.cases += done.cases;
    sofar.bad += done.bad;
    progress?.(sofar);
  };
  try {
    const nobody = { asOf: '', timeZone: '', facts: {} };
    output.write(`${JSON.stringify(headOf(desk.plan, assess(desk.plan, nobody, { reasons: 'none' })))}\n`);
    for await (const block of lineBlocks(untilStopped(input, isOver), BLOCK_BYTES)) {
      sofar.bytes += block.bytes.length;
      const work = lanes.work(block);
      // Its failure is met when its turn to be written comes.
      work.catch(() => {});
      underWay.push(work);
      if (underWay.length >= lanes.most) await writeNext();
      if (isOver()) break;
    }
    while (underWay.length > 0 && !isOver()) await writeNext();
    if (broken !== undefined && broken.code !== 'EPIPE') throw broken;
    return { ...sofar, ended: broken ? 'reader' : signal?.aborted ? 'signal' : 'input' };
  } finally {
    signal?.removeEventListener('abort', stop);
    output.off('error', onError);
    await lanes.close();
  }
}

/** An input that is given up ends like any other. */
async function* untilStopped(input: Readable, isOver: () => boolean): AsyncGenerator<Uint8Array> {
  try {
    for await (const chunk of input) yield chunk as Uint8Array;
  } catch (error) {
    if (!isOver()) throw error;
  }
}

/** Until the reader has caught up, or is gone. */
function drained(output: Writable): Promise<void> {
  return new Promise((resolve) => {
    const over = (): void => {
      for (const event of ['drain', 'close', 'error']) output.off(event, over);
      resolve();
    };
    for (const event of ['drain', 'close', 'error']) output.on(event, over);
  });
}
