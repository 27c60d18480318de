/// <reference types="node" />
import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, workerData } from 'node:worker_threads';
import { relationsOf, wholeAnalysis } from './analysis.ts';
import { readArguments } from './arguments.ts';
import { compare, comparedApart, type ToCompare } from './compared.ts';
import type { Exact } from './exact.ts';
import { bench, besideParsing, kept, setUp } from './figures.ts';
import { goals } from './goals.ts';
import { type Measured, measure } from './measured.ts';
import { machine, section, writeReadme } from './readme.ts';
import { shipped } from './shipped.ts';
import { stream } from './stream.ts';
import { invented } from './subject.ts';
import { markdown, plainTable, ratio } from './table.ts';

const say = (text: string): void => {
  process.stdout.write(`${text}\n`);
};

/** The file that this is bundled into is also what a comparing thread runs. */
if (isMainThread) await run(process.argv.slice(2));
else parentPort!.postMessage(await compare(workerData as ToCompare));

async function run(given: readonly string[]): Promise<void> {
  const options = readArguments(given);
  say(machine());
  say(
    `rules ${options.rules}; seeds ${options.seeds}; missing ${options.missing}; ${options.rounds} rounds\n`,
  );

  const [first = 0] = options.seeds;
  const exact: Exact[] = [];
  const measured: Measured[] = [];
  const compared = (rules: ToCompare['rules'], seed: number): Promise<Exact> => {
    const reasons = rules === options.rules[0];
    return comparedApart(fileURLToPath(import.meta.url), { rules, seed, missing: options.missing, reasons });
  };
  for (const rules of options.rules) {
    for (const seed of options.seeds) exact.push(await compared(rules, seed));
    measured.push(await measure(invented(rules, first, options), options, 'invented'));
    say(`${plainTable(measured.at(-1)!)}\n`);
  }
  exact.push(await compared('shipped', first));
  const real = shipped(first, options);
  const onShipped = await measure(real, options, 'shipped');
  say(`${plainTable(onShipped)}\n`);

  const small = invented(80, first, options);
  for (const subject of [small, real]) {
    const [parse, judge] = await besideParsing(subject, options.rounds);
    say(
      `a case of ${subject.name}: JSON.parse ${ratio(parse.median)} µs, judging it ${ratio(judge.median)} µs`,
    );
  }
  say('');
  const found = goals({
    measured,
    exact,
    kept: kept(small),
    setUp: [
      { rules: 80, time: await setUp(80, first, options.rounds) },
      { rules: 800, time: await setUp(800, first, options.rounds) },
    ],
    bench: await bench(small, options.rounds),
    relations: [
      await relationsOf(80, first, options.rounds),
      await relationsOf(800, first, Math.ceil(options.rounds / 3)),
    ],
  });
  for (const { what, wanted, found: was, held } of found) {
    say(`${held ? 'held    ' : 'not held'}  ${what}: ${was} (${wanted})`);
  }
  const whole = await wholeAnalysis('indication', 3);
  say(
    `\nthe whole analysis of ${whole.rules} shipped rules, patients made up and assessed: ${ratio(whole.time.median)} ms`,
  );

  if (options.stream > 0) {
    const streamed = await stream(real.cases, options.stream);
    const [mb, early, peak] = [streamed.rate, streamed.early, streamed.peak].map((one) => ratio(one / 1e6));
    say(`\nstream of ${options.stream} MB, ${streamed.cases} cases: ${mb} MB/s, heap at most ${peak} MB`);
    say(`(${early} MB over its first quarter)`);
  }

  const table = section(markdown([...measured, onShipped]), options);
  say(`\n${table}`);
  if (options.write) writeReadme(table);
}
