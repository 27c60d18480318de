import type { Case, CaseValue, Condition, Fact, Operator, Release, Rule } from '@dwellset/core';
import { type Random, random } from '../reference/generate/random.ts';
import { leaf, makeCase, makeFact, makeRelease, makeRule } from '../reference/release.ts';

/** An invented rule set: 60 facts, 3 to 8 leaf conditions a rule, nested; nothing in it is about anybody. */
export interface Generated {
  readonly release: Release;
  readonly cases: readonly Case[];
}

export interface Shape {
  readonly rules: number;
  readonly cases: number;
  readonly seed: number;
  /** Chance that a fact is missing from a case. */
  readonly missing: number;
}

const LISTS = { colours: ['red', 'green', 'blue', 'white', 'black'], marks: ['a', 'b', 'c', 'd', 'e', 'f'] };
const words = (codes: readonly string[]) => Object.fromEntries(codes.map((code) => [code, code]));
const COUNTS = { boolean: 20, number: 20, code: 14, codes: 6 };

const numbered = (count: number, make: (index: number) => Fact): Fact[] =>
  Array.from({ length: count }, (_, index) => make(index));

const FACTS: readonly Fact[] = [
  ...numbered(COUNTS.boolean, (at) => makeFact(`sign.s${at}`, { type: 'boolean' })),
  ...numbered(COUNTS.number, (at) =>
    makeFact(`measure.m${at}`, { type: 'number', unit: 'mL', limits: [0, 1000] }),
  ),
  ...numbered(COUNTS.code, (at) => makeFact(`kind.k${at}`, { type: 'code', codes: 'colours' })),
  ...numbered(COUNTS.codes, (at) =>
    makeFact(`found.f${at}`, { type: 'codes', codes: 'marks', unlisted: 'no' }),
  ),
];

const ORDERS: readonly Operator[] = ['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive'];

/** No comparison that every value or no value of its fact meets: missing then always means unknown. */
function leafOf(draw: Random): Condition {
  const fact = draw.pick(FACTS);
  switch (fact.type) {
    case 'number':
      return leaf(fact.id, draw.pick(ORDERS), draw.integer(1, 19) * 50);
    case 'code': {
      const some = draw.some(LISTS.colours, 0.4).slice(0, 3);
      if (some.length > 1) return leaf(fact.id, draw.pick(['in', 'notIn']), some);
      return leaf(fact.id, draw.pick(['equal', 'notEqual']), draw.pick(LISTS.colours));
    }
    case 'codes': {
      const some = draw.some(LISTS.marks, 0.3);
      if (some.length > 1) return leaf(fact.id, 'containsAny', some);
      return leaf(fact.id, draw.pick(['contains', 'doesNotContain']), draw.pick(LISTS.marks));
    }
    default:
      return leaf(fact.id, 'equal', draw.chance(0.5));
  }
}

function treeOf(draw: Random, leaves: number, group: 'all' | 'any'): Condition {
  if (leaves === 1) return draw.chance(0.1) ? { not: leafOf(draw) } : leafOf(draw);
  const other = group === 'all' ? 'any' : 'all';
  const first = draw.integer(1, leaves - 1);
  const parts = [treeOf(draw, first, other), treeOf(draw, leaves - first, other)];
  const tree = group === 'all' ? { all: parts } : { any: parts };
  return draw.chance(0.08) ? { not: tree } : tree;
}

function ruleOf(draw: Random, at: number): Rule {
  const leaves = draw.integer(3, 8);
  const scoped = draw.chance(0.4);
  const when = treeOf(draw, scoped ? leaves - 1 : leaves, draw.pick(['all', 'any']));
  return makeRule(`rule-${at}`, scoped ? { scope: leafOf(draw), when } : { when });
}

function drawValue(fact: Fact, draw: Random): CaseValue {
  switch (fact.type) {
    case 'number':
      return { value: draw.integer(0, 1000), unit: 'mL' };
    case 'code':
      return draw.pick(LISTS.colours);
    case 'codes':
      return draw.some(LISTS.marks, 0.3);
    default:
      return draw.chance(0.5);
  }
}

/** The same seed gives the same rules and cases everywhere. */
export function generate({ rules, cases, seed, missing }: Shape): Generated {
  const draw = random(seed);
  const release = makeRelease({
    id: 'generated',
    facts: FACTS,
    codes: { colours: words(LISTS.colours), marks: words(LISTS.marks) },
    rules: Array.from({ length: rules }, (_, at) => ruleOf(draw, at)),
  });
  const caseOf = (): Case =>
    makeCase(
      Object.fromEntries(
        FACTS.filter(() => !draw.chance(missing)).map((fact) => [fact.id, drawValue(fact, draw)]),
      ),
    );
  return { release, cases: Array.from({ length: cases }, caseOf) };
}

/** The set with one more comparison in its first rule: what an author does between two looks. */
export function edited(release: Release, limit: number): Release {
  const [first, ...rest] = release.rules;
  const when: Condition = { all: [first!.when!, leaf('measure.m0', 'lessThan', limit)] };
  return { ...release, rules: [{ ...first!, when }, ...rest] };
}
