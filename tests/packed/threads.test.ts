/// <reference types="node" />
import { once } from 'node:events';
import { setImmediate as giveWay } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { compile, isInCases, judgeCases, type Release, readCases } from '@dwellset/core';
import {
  cancelJob,
  openColumns,
  outcomesIn,
  progressOf,
  type SharedJob,
  shareColumns,
  sharedJob,
  workOn,
} from '@dwellset/core/many';
import { describe, expect, it } from 'vitest';
import { edited, generate } from '../benchmark/generate.ts';
import { leaf, makeFact, makeRule } from '../reference/release.ts';

const allow = ['draft'] as const;
const { release, cases } = generate({ rules: 60, cases: 400, seed: 20_261_126, missing: 0.15 });
const base: Release = { ...release, effectivePeriod: { start: '2026-01-01', end: '2026-11-30' } };
/** Not a multiple of a block, nor of 32; every third case lies outside the period. */
const ROWS = 20_010;
const ward = Array.from({ length: ROWS }, (_, row) => {
  const patient = cases[row % cases.length]!;
  return row % 3 === 0 ? { ...patient, asOf: '2026-12-24T09:00:00Z' } : patient;
});
const plan = compile([base], { allow });
const columns = readCases(plan, ward);
const shared = shareColumns(columns);
/** The rules that are tried on the columns of the others. */
const tried = edited(base, 620);
const wanted = judgeCases(compile([tried], { allow }), columns);

/** A thread that knows the rules and takes blocks; the built package, as a program loads it. */
const THREAD = `
const { parentPort, workerData } = require('node:worker_threads');
Promise.all([import('@dwellset/core'), import('@dwellset/core/many')]).then(([{ compile }, { workOn }]) => {
  const { base, tried, shared, job } = workerData;
  const [readBy, plan] = [base, tried].map((release) => compile([release], { allow: ['draft'] }));
  workOn(job, plan, shared, readBy);
  parentPort.postMessage('no block is left');
});`;

/** Ends when all of them have, each after it found no block left. */
async function threads(count: number, job: SharedJob): Promise<void> {
  const workerData = { base, tried, shared, job };
  const ends = Array.from({ length: count }, async () => {
    const worker = new Worker(THREAD, { eval: true, execArgv: [], workerData });
    const said: unknown[] = [];
    worker.on('message', (text) => said.push(text));
    await once(worker, 'exit');
    expect(said).toEqual(['no block is left']);
  });
  await Promise.all(ends);
}

const PARTS = ['applies', 'doesNotApply', 'undetermined', 'notInScope'] as const;

/** Rows of which something is said, and those of which it is what one thread says; counted over all rules. */
function agreement(job: SharedJob) {
  let [said, same] = [0, 0];
  for (const { id } of base.rules) {
    const [found, own] = [outcomesIn(job, base.id, id), wanted.rule(base.id, id)];
    for (let row = 0; row < ROWS; row += 1) {
      const parts = PARTS.filter((part) => isInCases(found[part], row));
      said += parts.length;
      if (parts.length === 1 && isInCases(own[parts[0]!], row)) same += 1;
    }
  }
  return { said, same };
}

describe('columns shared between threads', () => {
  it('give in three threads what they give in one, rules that were edited since included', async () => {
    const job = sharedJob(wanted.plan, shared);
    expect(progressOf(job)).toEqual({ done: 0, of: 20, cancelled: false });
    await threads(3, job);
    expect(progressOf(job)).toEqual({ done: 20, of: 20, cancelled: false });
    const outcomes = ROWS * base.rules.length;
    expect(agreement(job)).toEqual({ said: outcomes, same: outcomes });
  });

  it('tell how far they are without a message, and end when told to', async () => {
    const job = sharedJob(wanted.plan, shared, 32);
    let isOver = false;
    const ended = threads(2, job).finally(() => {
      isOver = true;
    });
    while (progressOf(job).done === 0 && !isOver) await giveWay();
    cancelJob(job);
    await ended;
    const { done, of, cancelled } = progressOf(job);
    expect(cancelled).toBe(true);
    expect(of).toBe(626);
    expect(done).toBeLessThan(of);
    // Blocks that were begun are whole, of the others nothing is said.
    const outcomes = done * 32 * base.rules.length;
    expect(agreement(job)).toEqual({ said: outcomes, same: outcomes });
  });

  it('are opened for the rules alone that they were read for', () => {
    expect(() => openColumns(wanted.plan, shared)).toThrow(RangeError);
    expect(() => openColumns(plan, shared, { from: 16, to: 64 })).toThrow(RangeError);
    expect(() => openColumns(plan, shared, { from: 0, to: ROWS + 1 })).toThrow(RangeError);
    expect(openColumns(plan, shared, { from: 19_968, to: ROWS }).rows).toBe(42);
  });

  it('say so where the cases themselves are needed', () => {
    const more: Release = {
      ...base,
      facts: [...base.facts, makeFact('sign.new', { type: 'boolean' })],
      rules: [makeRule('new', { when: leaf('sign.new', 'equal', true) })],
    };
    const later: Release = { ...base, effectivePeriod: { start: '2026-02-01' } };
    for (const other of [more, later]) {
      const own = compile([other], { allow });
      expect(() => workOn(sharedJob(own, shared), own, shared, plan)).toThrow(
        'the cases themselves are needed, and were not shared',
      );
    }
  });
});
