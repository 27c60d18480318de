import { type Case, type CaseColumns, judgeCases, readCases } from '@dwellset/core';
import { openColumns, shareColumns } from '@dwellset/core/many';
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

/** About so many outcomes a run of what takes many cases at once. */
const OUTCOMES = 400_000;
/** So many of what is judged case by case: short enough for the slowest, and more than a processor's cache holds. */
const ONE_BY_ONE = 32_000;
/** Columns of more cases than this leave the processor's cache; so many are judged at once. */
const BLOCK = 8192;

/** Nobody reads the reasons of more rules than this for one case. */
const MOST_READ = 1000;

const explainingLaps = ({ plan }: Subject, cases: readonly Case[]): Lap[] => [
  oneByOne(WAYS.applying, cases, (patient) => applyingOfOne(plan, patient)),
  oneByOne(WAYS.reasons, cases, (patient) => reasonsOfOne(plan, patient)),
  oneByOne(WAYS.spoken, cases, (patient) => explainOne(plan, patient, 'none')),
  oneByOne(WAYS.deciding, cases, (patient) => explainOne(plan, patient, 'deciding')),
  oneByOne(WAYS.explained, cases, (patient) => explainOne(plan, patient, 'all')),
];

/** Every way, over so many cases as one run takes; what judges case by case is given the same ones. */
export async function lapsOf(subject: Subject): Promise<readonly Lap[]> {
  const { plan, plainRules, rules } = subject;
  const few = Math.max(4, Math.round(ONE_BY_ONE / rules));
  const [cases, plainCases] = [spread(subject.cases, few), spread(subject.plainCases, few)];
  const many = Math.min(BLOCK, Math.max(1024, Math.round((OUTCOMES * 2) / rules)));
  return [
    oneByOne(WAYS.rulesEngine, plainCases, jsonRulesEngine(plainRules)),
    oneByOne(WAYS.logicEngine, plainCases, jsonLogic(plainRules)),
    oneByOne(WAYS.judged, cases, (patient) => judgeOne(plan, patient)),
    ...(rules > MOST_READ ? [] : explainingLaps(subject, cases)),
    ...manyLaps(subject, many),
    ...(await sqlLaps(subject)),
  ];
}

/** So many of all cases, from the first to the last. */
const spread = <T>(cases: readonly T[], count: number): T[] =>
  cases.length <= count
    ? [...cases]
    : Array.from({ length: count }, (_, at) => cases[Math.floor((at * cases.length) / count)]!);

/** Judging many cases at once: their reading, and judging what was read, each time columns nobody has judged. */
export function manyLaps({ plan, cases }: Subject, count: number): readonly Lap[] {
  const blocks = blocksOf(manyOf(cases, count));
  const read = blocks.map((block) => shareColumns(readCases(plan, block)));
  let fresh: CaseColumns[][] = [];
  return [
    {
      name: WAYS.reading,
      cases: count,
      run: () => blocks.map((block) => readCases(plan, block)),
    },
    {
      name: WAYS.columns,
      cases: count,
      prepare: (runs) => {
        fresh = Array.from({ length: runs }, () => read.map((block) => openColumns(plan, block)));
      },
      run: () => fresh.pop()!.map((block) => judgeAll(judgeCases(plan, block))),
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
