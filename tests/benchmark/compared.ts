/// <reference types="node" />
import { Worker } from 'node:worker_threads';
import { type Exact, exactOnInvented, exactOnShipped } from './exact.ts';
import { shipped } from './shipped.ts';
import { invented } from './subject.ts';

/** Outcomes compared before anything is timed, for each set and seed; and statements of reasons. */
const OUTCOMES = 160_000;
const EXPLAINED = 24_000;
const SHIPPED = 60;

/** What is compared: an invented set of so many rules, or the shipped ones. */
export interface ToCompare {
  readonly rules: number | 'shipped';
  readonly seed: number;
  readonly missing: number;
  /** Statements of reasons as well. */
  readonly reasons: boolean;
}

export const compare = ({ rules, seed, missing, reasons }: ToCompare): Promise<Exact> =>
  rules === 'shipped'
    ? exactOnShipped(shipped(seed, { missing }), SHIPPED)
    : exactOnInvented(invented(rules, seed, { missing }), OUTCOMES, reasons ? EXPLAINED : 0);

/**
 * The same in a thread of its own, which has a heap and machine code of its own, so that nothing that comparing keeps, and
 * no shape of object that it shows the runtime, has a part in what is timed.
 */
export function comparedApart(file: string, told: ToCompare): Promise<Exact> {
  return new Promise((resolve, reject) => {
    const thread = new Worker(file, { workerData: told });
    thread.once('message', resolve);
    thread.once('error', reject);
  });
}
