/// <reference types="node" />
import { type CaseColumns, compile, evaluate, judgeCases, type Plan, readCases } from '@dwellset/core';
import { openColumns, shareColumns } from '@dwellset/core/many';
import { edited, generate } from './generate.ts';
import { interleaved, type Lap, type Sample } from './measure.ts';
import { judgeAll, judgeOne } from './peers/own.ts';
import { manyOf, type Subject } from './subject.ts';

/** Bytes that stay while evaluations are kept (their cases aside), and those of the truths alone; per case. */
export function kept({ plan, cases }: Subject): { readonly evaluation: number; readonly truths: number } {
  const used = (): number => {
    // Twice: what lies outside the heap is given back beside the program, and the next collection waits for that.
    for (let time = 0; time < 2; time += 1) (globalThis as { gc?: () => void }).gc?.();
    const { heapUsed, external } = process.memoryUsage();
    return heapUsed + external;
  };
  const before = used();
  const evaluations = cases.map((patient) => evaluate(plan, patient));
  const evaluation = (used() - before) / evaluations.length;
  return { evaluation, truths: evaluations[0]!.truths.byteLength };
}

/** Milliseconds to set up so many invented rules. */
export async function setUp(rules: number, seed: number, rounds: number): Promise<Sample> {
  const { release } = generate({ rules, cases: 0, seed, missing: 0 });
  const lap: Lap = { name: 'set-up', cases: 1000, run: () => compile([release], { allow: ['draft'] }).size };
  return (await interleaved([lap], rounds)).get(lap.name)!;
}

/** Milliseconds for all rules over cases that were read before, and for one edited rule over more of them. */
export async function bench(
  { plan, cases }: Subject,
  rounds: number,
): Promise<{ readonly all: Sample; readonly one: Sample }> {
  const { release } = plan.sets[0]!;
  const few = shareColumns(readCases(plan, manyOf(cases, 2000)));
  const many = readCases(plan, manyOf(cases, 20_000));
  judgeAll(judgeCases(plan, many));
  let fresh: CaseColumns[] = [];
  let edits: Plan[] = [];
  let limit = 0;
  const laps: Lap[] = [
    {
      name: 'all',
      cases: 1000,
      prepare: (runs) => {
        fresh = Array.from({ length: runs }, () => openColumns(plan, few));
      },
      run: () => judgeAll(judgeCases(plan, fresh.pop()!)),
    },
    {
      name: 'one',
      cases: 1000,
      most: 40,
      // An edit that was seen before is remembered, so each is another one.
      prepare: (runs) => {
        edits = Array.from({ length: runs }, () => {
          limit += 1 / 16;
          return compile([edited(release, limit)], { allow: ['draft'] });
        });
      },
      run: () => judgeCases(edits.pop()!, many).rule(release.id, release.rules[0]!.id).applies.length,
    },
  ];
  const found = await interleaved(laps, rounds);
  return { all: found.get('all')!, one: found.get('one')! };
}

/** Microseconds to read the text of a case with JSON.parse, and to judge the case with every condition's truth kept. */
export async function besideParsing(
  { plan, cases }: Subject,
  rounds: number,
): Promise<readonly [Sample, Sample]> {
  const texts = cases.map((patient) => JSON.stringify(patient));
  const laps: Lap[] = [
    { name: 'parse', cases: cases.length, run: () => texts.map((text) => JSON.parse(text)).length },
    { name: 'judge', cases: cases.length, run: () => cases.map((patient) => judgeOne(plan, patient)).length },
  ];
  const found = await interleaved(laps, rounds);
  return [found.get('parse')!, found.get('judge')!];
}
