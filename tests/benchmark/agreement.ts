import { type Case, type Outcome, type Plan, rulesSql } from '@dwellset/core';
import { openDatabase } from '../core/derivations/support/database.ts';
import { referenceAssess } from '../reference/assess.ts';
import { bitColumns, bitRules } from './peers/bitCode.ts';
import { jsonLogic } from './peers/jsonLogic.ts';
import { jsonRulesEngine } from './peers/jsonRulesEngine.ts';
import { judgeMany, judgeOne } from './peers/own.ts';
import { fillReadings, sqlOutcomes } from './peers/sql.ts';
import { naiveOutcome, type Subject } from './subject.ts';

export type Outcomes = readonly (readonly Outcome[])[];

/** Outcomes that were compared with the reference, and those that differ, by the way they were found. */
export interface Agreement {
  readonly compared: number;
  readonly differing: Readonly<Record<string, number>>;
}

export const naiveOutcomes = ({ plainRules, plainCases }: Subject, count: number): Outcomes =>
  plainCases.slice(0, count).map((given) => plainRules.map((rule) => naiveOutcome(rule, given)));

/** The second evaluator of the tests, which knows everything that a shipped rule set may hold. */
export const referenceOutcomes = ({ plan, cases }: Subject, count: number): Outcomes =>
  cases.slice(0, count).map((patient) => {
    const { sets } = referenceAssess(
      plan.sets.map(({ release }) => release),
      patient,
    );
    return sets.flatMap(({ rules }) => Object.values(rules) as Outcome[]);
  });

/** Compares every way that is meant to be exact with a reference, case by case and rule by rule. */
export async function agreement(subject: Subject, wanted: Outcomes, inSql: number): Promise<Agreement> {
  const { plan } = subject;
  const cases = subject.cases.slice(0, wanted.length);
  const ways: Record<string, Outcomes> = {
    'one case': cases.map((patient) => judgeOne(plan, patient)),
    'many cases': manyOutcomes(plan, cases),
    SQL: await outcomesInSql(plan, cases.slice(0, inSql)),
  };
  const differing = Object.entries(ways).map(([way, found]) => [way, differences(found, wanted)] as const);
  return { compared: wanted.flat().length, differing: Object.fromEntries(differing) };
}

function differences(found: Outcomes, wanted: Outcomes): number {
  let differing = 0;
  found.forEach((row, at) => {
    if (row.length !== wanted[at]!.length) throw new Error('not every rule has an outcome');
    row.forEach((outcome, rule) => {
      if (outcome !== wanted[at]![rule]) differing += 1;
    });
  });
  return differing;
}

function manyOutcomes(plan: Plan, cases: readonly Case[]): Outcomes {
  const judged = judgeMany(plan, cases);
  return cases.map((_, row) =>
    plan.sets.flatMap(({ release, rules }) =>
      rules.map(({ rule }) => judged.outcome(release.id, rule.id, row)),
    ),
  );
}

async function outcomesInSql(plan: Plan, cases: readonly Case[]): Promise<Outcomes> {
  const database = await openDatabase();
  fillReadings(database, 'cases', plan, cases);
  const found = sqlOutcomes(database, 'cases', rulesSql(plan)) as unknown as Outcomes;
  database.close();
  return found;
}

/** Outcomes of generated bit code that differ; it is measured as a limit, so it has to be right. */
export function differingInBitCode({ plainRules, plainCases }: Subject, wanted: Outcomes): number {
  const given = plainCases.slice(0, wanted.length);
  const found = bitRules(plainRules).run(bitColumns(given));
  const bit = (bits: Uint32Array, row: number): boolean => ((bits[row >>> 5]! >>> (row & 31)) & 1) === 1;
  let differing = 0;
  wanted.forEach((outcomes, row) => {
    outcomes.forEach((outcome, rule) => {
      const { holds, open } = found[rule]!;
      const word = bit(holds, row) ? 'applies' : bit(open, row) ? 'undetermined' : 'no';
      if (word !== (outcome === 'applies' || outcome === 'undetermined' ? outcome : 'no')) differing += 1;
    });
  });
  return differing;
}

/** What engines without "unknown" say beside the truth, in shares of all outcomes. */
export interface Wrong {
  /** It speaks although what is missing could make the rule say nothing. */
  readonly firesOnUndetermined: number;
  /** It is silent although what is missing could make the rule speak, and does not say so. */
  readonly hidesUndetermined: number;
  /** It is silent although the rule holds whatever is missing. */
  readonly hidesDetermined: number;
  /** It speaks although the rule does not hold whatever is missing. */
  readonly firesOnDetermined: number;
}

type Speaks = (given: Subject['plainCases'][number]) => ReadonlySet<string> | Promise<ReadonlySet<string>>;

export const TWO_VALUED: Readonly<Record<string, (rules: Subject['plainRules']) => Speaks>> = {
  'json-rules-engine': jsonRulesEngine,
  'json-logic-engine': jsonLogic,
};

export async function wrong(speaks: Speaks, subject: Subject, wanted: Outcomes): Promise<Wrong> {
  const { plainRules, plainCases } = subject;
  if (wanted.some((row) => row.length !== plainRules.length))
    throw new Error('not every rule has an outcome');
  const count = { firesOnUndetermined: 0, hidesUndetermined: 0, hidesDetermined: 0, firesOnDetermined: 0 };
  for (let row = 0; row < wanted.length; row += 1) {
    const spoken = await speaks(plainCases[row]!);
    plainRules.forEach(({ id }, rule) => {
      const outcome = wanted[row]![rule]!;
      if (outcome === 'undetermined')
        count[spoken.has(id) ? 'firesOnUndetermined' : 'hidesUndetermined'] += 1;
      else if (outcome === 'applies' && !spoken.has(id)) count.hidesDetermined += 1;
      else if (outcome !== 'applies' && spoken.has(id)) count.firesOnDetermined += 1;
    });
  }
  const total = wanted.length * plainRules.length;
  return {
    firesOnUndetermined: count.firesOnUndetermined / total,
    hidesUndetermined: count.hidesUndetermined / total,
    hidesDetermined: count.hidesDetermined / total,
    firesOnDetermined: count.firesOnDetermined / total,
  };
}
