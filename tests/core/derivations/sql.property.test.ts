/// <reference types="node" />
import {
  type Case,
  compile,
  conclusionColumn,
  DERIVATION_KINDS,
  derivationSql,
  evaluate,
  explain,
  type Fact,
  type Release,
} from '@dwellset/core';
import type { Database } from 'sql.js';
import { beforeEach, describe, expect, it } from 'vitest';
import { generateCase } from '../../reference/generate/cases.ts';
import { MOMENTS } from '../../reference/generate/moments.ts';
import { random } from '../../reference/generate/random.ts';
import { generateVocabulary } from '../../reference/generate/vocabulary.ts';
import { leaf, makeRelease, makeRule } from '../../reference/release.ts';
import { codesIn, columnsOf } from './support/columns.ts';
import { compute, fill, openDatabase } from './support/database.ts';
import { caseOf } from './support/draw.ts';
import { differences, namesOf } from './support/inSql.ts';
import { APART } from './support/puzzles.ts';
import { WARD_FACTS, WARD_PARTS } from './support/ward.ts';

const SEED = Number(process.env.SEED ?? 20_261_125);
const WARD_ROWS = 2000;
const DICTIONARIES = 150;
const ROWS_EACH = 20;

let database: Database;
beforeEach(async () => {
  database = await openDatabase();
});

describe('derived facts in SQL', () => {
  it('are what the core reads, over 2,000 cases of a dictionary with every kind', () => {
    const draw = random(SEED);
    const kinds = new Map<string, number>();
    const release = makeRelease({ ...WARD_PARTS, facts: WARD_FACTS, rules: [] });
    const cases = Array.from({ length: WARD_ROWS }, () => caseOf(draw, WARD_FACTS, release.codes));
    const found = differences(database, release, cases, kinds);
    console.info(`seed ${SEED}: ${WARD_ROWS} rows, values computed per kind ${JSON.stringify([...kinds])}`);
    expect(found.slice(0, 5), `${found.length} cells differ`).toEqual([]);
    expect(
      DERIVATION_KINDS.filter((kind) => !(APART as readonly string[]).includes(kind) && !kinds.has(kind)),
    ).toEqual([]);
  });

  it('are what the core reads, over random dictionaries', () => {
    const kinds = new Map<string, number>();
    for (let index = 0; index < DICTIONARIES; index++) {
      const draw = random(SEED + index);
      const [zone, at] = draw.pick(MOMENTS);
      const release = makeRelease({ ...generateVocabulary(draw), rules: [] });
      const generated = { releases: [release], around: Date.parse(at), zone };
      // A supplied value of a derived fact is weighed before there are columns.
      const cases = Array.from({ length: ROWS_EACH }, () =>
        withoutDerived(generateCase(draw, generated), release),
      );
      const found = differences(database, release, cases, kinds);
      expect(found.slice(0, 5), `seed ${SEED + index}: ${found.length} cells differ`).toEqual([]);
    }
    console.info(
      `seed ${SEED}: ${DICTIONARIES} dictionaries, values computed per kind ${JSON.stringify([...kinds])}`,
    );
  });

  it('take a conclusion from the columns of the rule set that draws it', () => {
    const facts: readonly Fact[] = [
      { id: 'patient.adult', type: 'boolean', title: 'adult', question: 'Adult?' },
      { id: 'indication.retention', type: 'boolean', title: 'retention', question: 'Retention?' },
    ];
    const concluded: Fact = {
      id: 'indication.conclusion',
      type: 'code',
      codes: 'conclusions',
      title: 'conclusion',
      question: 'Conclusion?',
      from: { conclusion: 'indication-set' },
    };
    const codes = { conclusions: { supported: 'supported', unsupported: 'not supported' } };
    const deciding = makeRelease({
      id: 'indication-set',
      shape: 'decision',
      facts,
      codes,
      population: { when: leaf('patient.adult', 'equal', true), otherwise: 'not this patient' },
      conclusions: [{ id: 'supported', title: 'supported' }],
      defaultConclusion: { id: 'unsupported', title: 'not supported' },
      rules: [
        makeRule('retention', { when: leaf('indication.retention', 'equal', true), concludes: 'supported' }),
      ],
    });
    const reading = makeRelease({ id: 'reading', facts: [concluded], codes, rules: [] });
    const plan = compile([deciding, reading], { allow: ['draft'] });
    const answers = [true, false, undefined];
    const cases = answers.flatMap((adult) =>
      answers.map(
        (retention): Case => ({
          asOf: '2026-11-25T09:00:00Z',
          timeZone: 'UTC',
          facts: {
            ...(adult === undefined ? {} : { 'patient.adult': adult }),
            ...(retention === undefined ? {} : { 'indication.retention': retention }),
          },
        }),
      ),
    );
    const evaluations = cases.map((patient) => evaluate(plan, patient));
    fill(
      database,
      'before',
      evaluations.map((evaluation) => {
        const set = explain(evaluation, { reasons: 'none' }).ruleSets.find(({ id }) => id === deciding.id);
        const possible = set?.conclusion?.possible ?? [];
        const may = codesIn(codes, 'conclusions').reduce(
          (sofar, code, at) => sofar + (possible.includes(code) ? 2 ** at : 0),
          0,
        );
        return {
          [conclusionColumn(deciding.id, 'may')]: may,
          [conclusionColumn(deciding.id, 'settled')]: set?.conclusion?.settled ? 1 : 0,
          [conclusionColumn(deciding.id, 'stands')]: set?.conclusion?.id ? 1 : 0,
        };
      }),
    );
    const rows = compute(database, 'before', 'after', derivationSql(concluded, namesOf(reading)));
    const core = evaluations.map((evaluation) => {
      const read = evaluation.readings.get(concluded.id);
      return read && columnsOf(read, { codes, zone: 'UTC' });
    });
    expect(rows).toEqual(core);
    expect(new Set(rows.map((row) => JSON.stringify(row))).size).toBeGreaterThanOrEqual(4);
  });

  it('is not printed for a fact that is not derived, or that looks at a list', () => {
    const names = namesOf(makeRelease({ facts: [], rules: [] }));
    const count: Fact = { id: 'urine.entries', type: 'number', title: 'entries', question: 'Entries?' };
    expect(() => derivationSql(count, names)).toThrow('is not derived');
    expect(() => derivationSql({ ...count, from: { count: { of: 'urine.volumes' } } }, names)).toThrow(
      'looks at a list',
    );
  });

  it('refuses a code list whose mask would not be exact', () => {
    const codes = {
      many: Object.fromEntries(Array.from({ length: 54 }, (_, index) => [`code-${index}`, 'a code'])),
    };
    const facts: readonly Fact[] = [
      { id: 'record.one', type: 'code', codes: 'many', title: 'one', question: 'One?' },
      {
        id: 'record.both',
        type: 'code',
        codes: 'many',
        title: 'both',
        question: 'Both?',
        from: { firstRecorded: ['record.one'] },
      },
      {
        id: 'record.grade',
        type: 'code',
        codes: 'many',
        title: 'grade',
        question: 'Grade?',
        from: { band: { of: 'record.one', cuts: [1], codes: ['code-0', 'code-1'] } },
      },
    ];
    const release = makeRelease({ facts, codes, rules: [] });
    expect(() => derivationSql(facts[2] as Fact, namesOf(release))).toThrow(RangeError);
  });
});

function withoutDerived(patient: Case, release: Release): Case {
  const derived = new Set(release.facts.filter((fact) => fact.from).map((fact) => fact.id));
  return {
    ...patient,
    facts: Object.fromEntries(Object.entries(patient.facts).filter(([id]) => !derived.has(id))),
  };
}
