/// <reference types="node" />

import { vignetteSeeds } from '@dwellset/authoring';
import {
  type Case,
  compile,
  evaluate,
  type Plan,
  type RuleSql,
  rulesSql,
  ruleTruths,
  type TruthOf,
} from '@dwellset/core';
import type { Database } from 'sql.js';
import { beforeEach, describe, expect, it } from 'vitest';
import { library, planOf } from '../policies/shipped.ts';
import { generateCase } from '../reference/generate/cases.ts';
import { random } from '../reference/generate/random.ts';
import { generateReleases } from '../reference/generate/releases.ts';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';
import { columnsOf } from './derivations/support/columns.ts';
import { fill, openDatabase } from './derivations/support/database.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const PLANS = 120;
const CASES = 25;

let database: Database;
beforeEach(async () => {
  database = await openDatabase();
});

interface Difference {
  readonly rule: string;
  readonly row: number;
  readonly sql: string;
  readonly core: string;
}

/** What SQL makes of every rule and every case against what the core makes of them. */
function differences(plan: Plan, given: readonly Case[], seen: Map<string, number>): Difference[] {
  // The period of a release is no condition over facts.
  const evaluations = given
    .map((patient) => evaluate(plan, patient))
    .filter((one) => one.outOfPeriod.size === 0);
  if (evaluations.length === 0) return [];
  const codes = Object.assign({}, ...plan.sets.map(({ release }) => release.codes));
  const facts = plan.patientFacts.facts.map(({ id }) => id);
  fill(
    database,
    'cases',
    evaluations.map(({ readings, zone }) =>
      Object.assign({}, ...facts.map((id) => columnsOf(readings.get(id)!, { codes, zone }))),
    ),
  );
  const found: Difference[] = [];
  for (const { set, rule, ...printed } of rulesSql(plan)) {
    const own = plan.sets.find(({ release }) => release.id === set)!;
    const rows = select(printed);
    evaluations.forEach(({ truths }, row) => {
      const truthOf: TruthOf = (node) => (node === undefined ? 3 : (truths[node.at] as 0 | 2 | 3));
      const known = ruleTruths(own, own.rules.find((one) => one.rule.id === rule)!, truthOf);
      const core = [known.scope, known.when].map((truth) => (truth === 3 ? 1 : truth === 0 ? 0 : null));
      const [sql, wanted] = [JSON.stringify(rows[row]), JSON.stringify([...core, known.outcome])];
      if (sql !== wanted) found.push({ rule: `${set}/${rule}`, row, sql, core: wanted });
      seen.set(known.outcome, (seen.get(known.outcome) ?? 0) + 1);
    });
  }
  database.run('DROP TABLE cases');
  return found;
}

const select = ({ scope, when, outcome }: Pick<RuleSql, 'scope' | 'when' | 'outcome'>): unknown[][] =>
  database.exec(`SELECT ${scope}, ${when}, ${outcome} FROM cases ORDER BY row`)[0]?.values ?? [];

describe('rules in SQL', () => {
  it('give the outcome of the core, undetermined ones included, over random rule sets and cases', () => {
    const seen = new Map<string, number>();
    for (let index = 0; index < PLANS; index += 1) {
      const draw = random(SEED + index);
      const generated = generateReleases(draw);
      const plan = compile(generated.releases, { allow: ['draft'] });
      const cases = Array.from({ length: CASES }, () => generateCase(draw, generated));
      const found = differences(plan, cases, seen);
      expect(found.slice(0, 3), `seed ${SEED + index}: ${found.length} differ`).toEqual([]);
    }
    for (const outcome of ['applies', 'does-not-apply', 'undetermined', 'not-in-scope'])
      expect(seen.get(outcome) ?? 0, outcome).toBeGreaterThan(500);
  });

  it('give the outcome of the core on the shipped rules and a part of their vignettes', () => {
    const seen = new Map<string, number>();
    const found = [...library.sets.keys()].flatMap((set) => {
      const cases = vignetteSeeds(library, set).map((seed) => seed.case);
      const some = cases.filter((_, index) => index % 8 === 0);
      return differences(planOf([set]), some, seen);
    });
    expect(found.slice(0, 3), `${found.length} differ`).toEqual([]);
    expect(seen.get('applies') ?? 0).toBeGreaterThan(50);
  });

  it('keep a rule open where its fact is missing, also behind a "not"', () => {
    const fact = makeFact('bladder.volume', { type: 'number', unit: 'mL' });
    const rules = [
      makeRule('large', { when: leaf(fact.id, 'greaterThan', 400) }),
      makeRule('not-large', { when: { not: leaf(fact.id, 'greaterThan', 400) } }),
    ];
    const plan = compile([makeRelease({ facts: [fact], rules })], { allow: ['draft'] });
    expect(
      differences(plan, [makeCase({}), makeCase({ [fact.id]: { value: 500, unit: 'mL' } })], new Map()),
    ).toEqual([]);
    fill(database, 'cases', [
      columnsOf(evaluate(plan, makeCase({})).readings.get(fact.id)!, { codes: {}, zone: 'UTC' }),
    ]);
    expect(rulesSql(plan).map((printed) => select(printed)[0]?.[2])).toEqual([
      'undetermined',
      'undetermined',
    ]);
  });

  it('are not printed over a code list whose mask would not be exact', () => {
    const codes = {
      many: Object.fromEntries(Array.from({ length: 54 }, (_, at) => [`code-${at}`, 'a code'])),
    };
    const fact = makeFact('record.one', { type: 'code', codes: 'many' });
    const rules = [makeRule('one', { when: leaf(fact.id, 'equal', 'code-1') })];
    const plan = compile([makeRelease({ facts: [fact], codes, rules })], { allow: ['draft'] });
    expect(() => rulesSql(plan)).toThrow(RangeError);
  });
});
