/// <reference types="node" />
import { Worker } from 'node:worker_threads';
import { assessBlock, type BlockDone, type Desk, type Reasons } from './assessBlock.ts';
import type { LineBlock } from './lineBlocks.ts';

/** Where blocks are worked on. */
export interface Lanes {
  /** How many blocks may be under way at once. */
  readonly most: number;
  work(block: LineBlock): Promise<BlockDone>;
  close(): Promise<void>;
}

/** What a worker is told when it starts: it reads the rules itself. */
export interface LaneStart {
  readonly argv: readonly string[];
  readonly reasons: Reasons;
}

/** The thread that reads and writes also does the work. */
export const ownLane = (desk: Desk): Lanes => ({
  most: 1,
  // Giving way between blocks lets a signal through.
  work: (block) => new Promise((resolve) => setImmediate(() => resolve(assessBlock(desk, block)))),
  close: () => Promise.resolve(),
});

interface Lane {
  readonly worker: Worker;
  isBusy: boolean;
  done: (made: BlockDone) => void;
}

/** Threads of their own, begun one by one as there is work for them: a short input pays for one. */
export function workerLanes(threads: number, start: LaneStart): Lanes {
  const lanes: Lane[] = [];
  const waiting: ((lane: Lane) => void)[] = [];
  let fail: (error: Error) => void = () => {};
  const failed = new Promise<never>((_, reject) => {
    fail = reject;
  });
  failed.catch(() => {});
  const begin = (): Lane => {
    const worker = new Worker(new URL('./worker.mjs', import.meta.url), { workerData: start });
    const lane: Lane = { worker, isBusy: true, done: () => {} };
    worker.on('message', (made: BlockDone) => {
      lane.done(made);
      const next = waiting.shift();
      if (next) next(lane);
      else lane.isBusy = false;
    });
    worker.on('error', fail);
    lanes.push(lane);
    return lane;
  };
  const take = (): Promise<Lane> => {
    const idle = lanes.find(({ isBusy }) => !isBusy);
    if (idle) {
      idle.isBusy = true;
      return Promise.resolve(idle);
    }
    if (lanes.length < threads) return Promise.resolve(begin());
    return new Promise((resolve) => waiting.push(resolve));
  };
  return {
    // One block in hand and one waiting for each thread.
    most: threads * 2,
    async work(block) {
      const lane = await take();
      const made = new Promise<BlockDone>((resolve) => {
        lane.done = resolve;
      });
      lane.worker.postMessage(block, [block.bytes.buffer]);
      return Promise.race([made, failed]);
    },
    async close() {
      await Promise.all(lanes.map(({ worker }) => worker.terminate()));
    },
  };
}
