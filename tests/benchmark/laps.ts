import { judgeCases, readCases } from '@dwellset/core';
import { openDatabase } from '../core/derivations/support/database.ts';
import { type Lap, oneByOne } from './measure.ts';
import { bitColumns, bitRules } from './peers/bitCode.ts';
import { jsonLogic } from './peers/jsonLogic.ts';
import { jsonRulesEngine } from './peers/jsonRulesEngine.ts';
import { applyingOfOne, explainOne, judgeAll, judgeOne, reasonsOfOne } from './peers/own.ts';
import { countQueries, fillPlain, fillReadings, printedTruths, writtenTruths } from './peers/sql.ts';
import { manyOf, type Subject } from './subject.ts';

/** The names under which every way of judging is measured; one line of the table each. */
export const WAYS = {
  rulesEngine: 'json-rules-engine, its result tree read',
  logicEngine: 'json-logic-engine, compiled',
  written: 'SQLite (WebAssembly), rules written by hand',
  printed: 'SQLite (WebAssembly), rules as `rulesSql` prints them',
  judged: 'Dwellset, one case: the truth of every condition kept',
  applying: 'Dwellset, one case: advice and all reasons of the rules that apply, as objects',
  reasons: 'Dwellset, one case: all reasons of all rules, as objects',
  spoken: 'Dwellset, one case: whole assessment, with questions and no reasons',
  deciding: 'Dwellset, one case: whole assessment, with what decided each rule',
  explained: 'Dwellset, one case: whole assessment, with questions and all reasons',
  columns: 'Dwellset, many cases at once, read before',
  reading: 'reading many cases from objects',
  bits: 'bit code generated for the rules, columns given',
} as const;

/** About so many outcomes a lap, so that a lap is long enough to be measured and short enough to be interleaved. */
const OUTCOMES = 400_000;
/** Columns of more cases than this leave the processor's cache; so many are judged at once. */
const BLOCK = 8192;
const LEAST_MS = 60;

/** Nobody reads the reasons of more rules than this for one case. */
const MOST_READ = 1000;

const explainingLaps = async ({ plan, cases }: Subject): Promise<Lap[]> => [
  await oneByOne(WAYS.applying, cases, (patient) => applyingOfOne(plan, patient), LEAST_MS),
  await oneByOne(WAYS.reasons, cases, (patient) => reasonsOfOne(plan, patient), LEAST_MS),
  await oneByOne(WAYS.spoken, cases, (patient) => explainOne(plan, patient, 'none'), LEAST_MS),
  await oneByOne(WAYS.deciding, cases, (patient) => explainOne(plan, patient, 'deciding'), LEAST_MS),
  await oneByOne(WAYS.explained, cases, (patient) => explainOne(plan, patient, 'all'), LEAST_MS),
];

/** Every way, over so many cases as one lap takes. */
export async function lapsOf(subject: Subject): Promise<readonly Lap[]> {
  const { plan, cases, plainCases, plainRules } = subject;
  const one = oneByOne;
  const many = Math.min(BLOCK, Math.max(1024, Math.round((OUTCOMES * 2) / subject.rules)));
  return [
    await one(WAYS.rulesEngine, plainCases, jsonRulesEngine(plainRules), LEAST_MS),
    await one(WAYS.logicEngine, plainCases, jsonLogic(plainRules), LEAST_MS),
    await one(WAYS.judged, cases, (patient) => judgeOne(plan, patient), LEAST_MS),
    ...(subject.rules > MOST_READ ? [] : await explainingLaps(subject)),
    ...manyLaps(subject, many),
    ...(await sqlLaps(subject)),
  ];
}

/** Judging many cases at once: their reading, and judging what was read, each time columns nobody has judged. */
export function manyLaps({ plan, cases }: Subject, count: number): readonly Lap[] {
  const blocks = blocksOf(manyOf(cases, count));
  let fresh: ReturnType<typeof readCases>[] = [];
  const read = (): void => {
    fresh = blocks.map((block) => readCases(plan, block));
  };
  return [
    { name: WAYS.reading, cases: count, run: read },
    {
      name: WAYS.columns,
      cases: count,
      prepare: () => {
        if (fresh.length === 0) read();
      },
      run: () => {
        const columns = fresh;
        fresh = [];
        return columns.map((block) => judgeAll(judgeCases(plan, block)));
      },
    },
  ];
}

const blocksOf = <T>(given: readonly T[]): T[][] =>
  Array.from({ length: Math.ceil(given.length / BLOCK) }, (_, at) =>
    given.slice(at * BLOCK, (at + 1) * BLOCK),
  );

/** The limit, over the same cases. */
export function bitLap({ plainCases, plainRules }: Subject, count: number): Lap {
  const given = manyOf(plainCases, count);
  const rules = bitRules(plainRules);
  const blocks = blocksOf(given).map(bitColumns);
  return { name: WAYS.bits, cases: count, run: () => blocks.map((block) => rules.run(block).length) };
}

/** How many cases each rule holds for and leaves open, over tables that are filled before. */
async function sqlLaps(subject: Subject): Promise<readonly Lap[]> {
  const { plan, cases, plainCases, plainRules } = subject;
  const count = Math.max(50, Math.round(OUTCOMES / 4 / subject.rules));
  const database = await openDatabase();
  fillReadings(database, 'readings', plan, manyOf(cases, count));
  const names = [...new Set(plainCases.flatMap((given) => Object.keys(given)))];
  fillPlain(database, 'plain', names, manyOf(plainCases, count));
  const queries = {
    [WAYS.written]: countQueries('plain', writtenTruths(plainRules)),
    [WAYS.printed]: countQueries('readings', printedTruths(plan)),
  };
  return Object.entries(queries).map(([name, own]) => {
    const prepared = own.map((query) => database.prepare(query));
    return { name, cases: count, run: () => prepared.map((query) => query.get([]).length) };
  });
}
