/// <reference types="node" />
import { parentPort, workerData } from 'node:worker_threads';
import { assessBlock } from './assessBlock.ts';
import { deskOf } from './desk.ts';
import type { LaneStart } from './lanes.ts';
import type { LineBlock } from './lineBlocks.ts';

const { argv, reasons } = workerData as LaneStart;
const desk = deskOf(argv, reasons);

parentPort!.on('message', (block: LineBlock) => {
  const done = assessBlock(desk, block);
  parentPort!.postMessage(done, [done.bytes.buffer]);
});
