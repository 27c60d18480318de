/// <reference types="node" />
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Case } from '@dwellset/core';

export interface Streamed {
  readonly bytes: number;
  readonly cases: number;
  /** Bytes a second on the clock, threads and all. */
  readonly rate: number;
  /** The most that the heaps of all threads held at once, in bytes: over the first quarter, and over all of it. */
  readonly early: number;
  readonly peak: number;
}

/** Every thread of the command says now and then what its heap holds, on a pipe beside its output. */
const WATCH = `
import { writeSync } from 'node:fs';
import { threadId } from 'node:worker_threads';
setInterval(() => {
  try { writeSync(3, threadId + ' ' + process.memoryUsage().heapUsed + '\\n'); } catch {}
}, 50).unref();`;

/** Sends cases as JSON lines through \`dwellset assess -\`, so many megabytes of them. */
export async function stream(cases: readonly Case[], megabytes: number): Promise<Streamed> {
  const command = fileURLToPath(new URL('../../packages/cli/bin/dwellset.mjs', import.meta.url));
  const child = spawn(
    process.execPath,
    [
      '--import',
      `data:text/javascript,${encodeURIComponent(WATCH)}`,
      command,
      'assess',
      '-',
      '--allow',
      'draft',
    ],
    { stdio: ['pipe', 'pipe', 'inherit', 'pipe'] },
  );
  let [bytes, sent, lines, early, peak] = [0, 0, 0, 0, 0];
  const wanted = megabytes * 1_000_000;
  const heaps = new Map<string, number>();
  child.stdio[3]!.on('data', (said: Buffer) => {
    for (const line of said.toString().split('\n')) {
      const [thread, heap] = line.split(' ');
      if (thread && heap) heaps.set(thread, Number(heap));
    }
    const all = [...heaps.values()].reduce((sum, one) => sum + one, 0);
    peak = Math.max(peak, all);
    if (bytes < wanted / 4) early = Math.max(early, all);
  });
  child.stdout!.on('data', (part: Buffer) => {
    for (const byte of part) if (byte === 10) lines += 1;
  });
  const start = performance.now();
  const ended = once(child, 'close');
  const texts = cases.map((patient) => `${JSON.stringify(patient)}\n`);
  while (bytes < wanted) {
    const text = texts[sent % texts.length]!;
    sent += 1;
    bytes += Buffer.byteLength(text);
    if (!child.stdin!.write(text)) await once(child.stdin!, 'drain');
  }
  child.stdin!.end();
  const [code] = (await ended) as [number];
  // A head line, and one for every case.
  if (code !== 0 || lines !== sent + 1)
    throw new Error(`the stream ended with ${code} after ${lines} lines of ${sent}`);
  return { bytes, cases: sent, rate: bytes / ((performance.now() - start) / 1000), early, peak };
}
