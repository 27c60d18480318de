/// <reference types="node" />
import { relationsOf, wholeAnalysis } from './analysis.ts';
import { readArguments } from './arguments.ts';
import { type Exact, exactOnInvented, exactOnShipped } from './exact.ts';
import { bench, besideParsing, kept, setUp } from './figures.ts';
import { goals } from './goals.ts';
import { type Measured, measure } from './measured.ts';
import { machine, section, writeReadme } from './readme.ts';
import { shipped } from './shipped.ts';
import { stream } from './stream.ts';
import { invented } from './subject.ts';
import { markdown, plainTable, ratio } from './table.ts';

const options = readArguments(process.argv.slice(2));
const say = (text: string): void => {
  process.stdout.write(`${text}\n`);
};
/** Outcomes compared before anything is timed, for each set and seed; and statements of reasons. */
const COMPARED = 160_000;
const EXPLAINED = 24_000;
const SHIPPED = 60;

say(machine());
say(`rules ${options.rules}; seeds ${options.seeds}; missing ${options.missing}; ${options.rounds} rounds\n`);

const [first = 0] = options.seeds;
const exact: Exact[] = [];
const measured: Measured[] = [];
for (const rules of options.rules) {
  const isSmallest = rules === options.rules[0];
  for (const seed of options.seeds.slice(1)) {
    exact.push(await exactOnInvented(invented(rules, seed, options), COMPARED, isSmallest ? EXPLAINED : 0));
  }
  const subject = invented(rules, first, options);
  exact.push(await exactOnInvented(subject, COMPARED, isSmallest ? EXPLAINED : 0));
  measured.push(await measure(subject, options, 'invented'));
  say(`${plainTable(measured.at(-1)!)}\n`);
}
const real = shipped(first, options);
exact.push(await exactOnShipped(real, SHIPPED));
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
