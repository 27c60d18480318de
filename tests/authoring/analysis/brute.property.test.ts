import { analyseSet, type FindingKind } from '@dwellset/authoring/analysis';
import fc from 'fast-check';
import type { Database } from 'sql.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '../../core/derivations/support/database.ts';
import type { Json } from '../invented/documents.ts';
import { checklist, decision, invented, says } from './invented.ts';

/** Every patient: each fact known, or (NULL) not. SQL reads NULL as unknown, by three-valued logic of its own. */
const COLUMNS = {
  pain: [0, 1, null],
  count: [0, 1, 2, 3, 4, null],
  bag: ["'day'", "'night'", "'leg'", null],
  fever: [0, 1, null],
} as const;

/**
 * Comparisons that no value settles by itself: what is not known lies within the limits of its fact, so that a limit
 * at their end would be met by the unknown, where SQL knows only NULL.
 */
const leaf = fc.oneof(
  fc
    .oneof(
      fc.tuple(fc.constantFrom('lessThan', 'greaterThanInclusive'), fc.integer({ min: 1, max: 4 })),
      fc.tuple(fc.constantFrom('lessThanInclusive', 'greaterThan'), fc.integer({ min: 0, max: 3 })),
      fc.tuple(fc.constantFrom('equal', 'notEqual'), fc.integer({ min: 0, max: 4 })),
    )
    .map(([operator, value]): Json => ({ fact: 'care.count', operator, value })),
  fc
    .tuple(
      fc.constantFrom('in', 'notIn'),
      fc.subarray(['day', 'night', 'leg'], { minLength: 1, maxLength: 2 }),
    )
    .map(([operator, value]): Json => ({ fact: 'care.bag', operator, value })),
  fc
    .tuple(fc.constantFrom('care.pain', 'care.fever'), fc.boolean())
    .map(([fact, value]): Json => ({ fact, operator: 'equal', value })),
);
const { condition } = fc.letrec<{ condition: Json }>((tie) => ({
  condition: fc.oneof(
    { maxDepth: 3, depthSize: 'small' },
    leaf,
    fc
      .tuple(fc.constantFrom('all', 'any'), fc.array(tie('condition'), { minLength: 2, maxLength: 3 }))
      .map(([group, of]): Json => ({ [group]: of })),
    tie('condition').map((not): Json => ({ not })),
  ),
}));

const SIGNS: Readonly<Record<string, string>> = {
  lessThan: '<',
  lessThanInclusive: '<=',
  greaterThan: '>',
  greaterThanInclusive: '>=',
  equal: '=',
  notEqual: '<>',
};

function sql(node: Json): string {
  if (node.all) return `(${(node.all as Json[]).map(sql).join(' AND ')})`;
  if (node.any) return `(${(node.any as Json[]).map(sql).join(' OR ')})`;
  if (node.not) return `(NOT ${sql(node.not as Json)})`;
  const column = String(node.fact).slice('care.'.length);
  const { value, operator } = node;
  if (Array.isArray(value)) {
    const list = value.map((code) => `'${code}'`).join(', ');
    return `(${column} ${operator === 'in' ? 'IN' : 'NOT IN'} (${list}))`;
  }
  return `(${column} ${SIGNS[String(operator)]} ${typeof value === 'boolean' ? Number(value) : value})`;
}

const KNOWN = Object.keys(COLUMNS)
  .map((column) => `${column} IS NOT NULL`)
  .join(' AND ');

describe('what is found in random sets is what an independent engine finds by looking at every patient', () => {
  let database: Database;
  beforeAll(async () => {
    database = await openDatabase();
    const columns = Object.entries(COLUMNS).map(([name, values]) => {
      const rows = values.map((value) => `SELECT ${value ?? 'NULL'} AS ${name}`).join(' UNION ALL ');
      return `(${rows})`;
    });
    database.run(`CREATE TABLE patient AS SELECT * FROM ${columns.join(' CROSS JOIN ')}`);
  });
  /** Whether there is a patient of whom this is true; one of whom all is known unless said otherwise. */
  const some = (where: string, whom = KNOWN): boolean => {
    const [result] = database.exec(`SELECT count(*) FROM patient WHERE (${whom}) AND ${where}`);
    return Number(result?.values[0]?.[0]) > 0;
  };
  const everyone = 'TRUE';
  const kinds = (set: Parameters<typeof invented>[0]): string[] =>
    analyseSet(invented(set), 'care').findings.map(({ kind, of, certainty }) => {
      expect(certainty).toBe('certain');
      return [kind, ...of].join(' ');
    });
  /** Those of some kinds. */
  const only = (found: readonly string[], wanted: readonly FindingKind[]): string[] =>
    found.filter((name) => wanted.some((kind) => name.startsWith(`${kind} `))).sort();
  const expected = (checks: readonly (readonly [boolean, string])[]): string[] =>
    checks.flatMap(([holds, name]) => (holds ? [name] : [])).sort();
  const options = { numRuns: 40, seed: Number(process.env.SEED ?? 20_261_125) };

  it('of advice: never, always, redundant, contradictory', () => {
    let redundant = 0;
    fc.assert(
      fc.property(condition, condition, condition, (scope, a, b) => {
        const [one, two] = [`(${sql(scope)} AND ${sql(a)})`, sql(b)];
        const opposed = kinds({
          rules: {
            one: { scope, when: a, ...says('Do not remove it.') },
            two: { when: b, ...says('Remove it.') },
          },
        });
        expect(only(opposed, ['never-applies', 'always-applies', 'contradictory-advice'])).toEqual(
          expected([
            [!some(one), 'never-applies one'],
            [!some(two), 'never-applies two'],
            [some(one) && !some(`${sql(scope)} AND NOT ${sql(a)}`), 'always-applies one'],
            [some(two) && !some(`NOT ${two}`), 'always-applies two'],
            [some(`${one} AND ${two}`), 'contradictory-advice one two'],
          ]),
        );
        const alike = kinds({
          rules: { one: { scope, when: a, ...says('Review it.') }, two: { when: b, ...says('Review it.') } },
        });
        const twoIn = some(two) && !some(`${two} AND ${one} IS NOT TRUE`, everyone);
        const oneIn = some(one) && !some(`${one} AND ${two} IS NOT TRUE`, everyone);
        // Who is known in part, as "two or more", is none of these patients: a rule that only he sets apart is kept.
        const found = only(alike, ['redundant']);
        expect(
          expected([
            [twoIn, 'redundant two one'],
            [oneIn, 'redundant one two'],
          ]),
        ).toEqual(expect.arrayContaining(found));
        redundant += found.length;
      }),
      options,
    );
    expect(redundant).toBeGreaterThan(0);
  });

  it('of decisions: conclusions that never stand, and gaps', () => {
    fc.assert(
      fc.property(condition, condition, condition, (a, b, c) => {
        const [one, two, three] = [a, b, c].map(sql) as [string, string, string];
        const found = kinds({
          set: decision('first', 'second', 'third'),
          rules: {
            one: { when: a, concludes: 'first' },
            two: { when: b, concludes: 'second' },
            three: { when: c, concludes: 'third' },
          },
        });
        const stands = [some(`${two} AND NOT ${one}`), some(`${three} AND NOT ${one} AND NOT ${two}`)];
        const never = only(found, ['never-stands']).map((name) => name.split(' ')[1]);
        expect(never.sort()).toEqual(
          expected([
            [some(two) && !stands[0], 'two'],
            [some(three) && !stands[1], 'three'],
          ]),
        );
        expect(only(found, ['gap'])).toEqual(
          expected([[some(`NOT ${one} AND NOT ${two} AND NOT ${three}`), 'gap conclusion']]),
        );
      }),
      options,
    );
  });

  it('of checks: those that nobody can meet together', () => {
    fc.assert(
      fc.property(condition, condition, condition, (scope, a, b) => {
        const found = kinds({ set: checklist, rules: { one: { scope, expect: a }, two: { expect: b } } });
        const [limits, one, two] = [scope, a, b].map(sql) as [string, string, string];
        // Each can be met by somebody whom the other is about; else it is asked of those who miss it.
        const each = some(`${limits} AND ${one}`) && some(`${limits} AND ${two}`);
        expect(only(found, ['checks-contradict'])).toEqual(
          expected([
            [each && some(limits) && !some(`${limits} AND ${one} AND ${two}`), 'checks-contradict one two'],
          ]),
        );
      }),
      options,
    );
  });
});
