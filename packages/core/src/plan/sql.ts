import { all, bitsOf, column, firstOf, literal, maskOf, shares } from '../facts/derivations/sql/print.ts';
import { FALSE, TRUE } from '../facts/truth.ts';
import type { Fact } from '../release/fact.ts';
import type { LeafTest } from './leaf.ts';
import type { Leaf, Node, Plan, PlanRule, PlanSet } from './plan.ts';

/**
 * One rule as SQL over the columns of its facts, which are those of `derivationSql`. SQLite's dialect, and nothing in
 * it that PostgreSQL or DuckDB lacks. An expression that is 1, 0 or NULL (true, false, unknown): SQL's own AND, OR
 * and NOT join them as the rules do.
 */
export interface RuleSql {
  readonly set: string;
  readonly rule: string;
  /** Whether the rule is about this patient. Of a rule that is switched off, as if it were not. */
  readonly scope: string;
  /** Whether what the rule looks for is there. */
  readonly when: string;
  /** A word of `Outcome`, as text. The period in which a release may run is the caller's to weigh. */
  readonly outcome: string;
}

/** Prints what every rule of a plan makes of the patient's facts. Throws a RangeError on a list of over 53 codes. */
export function rulesSql(plan: Plan): readonly RuleSql[] {
  const print = printer(plan);
  return plan.sets.flatMap((set) => set.rules.map((rule) => ruleSql(set, rule, print)));
}

type Print = (node: Node | undefined) => string;

/** The same reading of scope as for one case: a locked rule does not wait for the population. */
function ruleSql(set: PlanSet, plan: PlanRule, print: Print): RuleSql {
  const { rule } = plan;
  const population = print(set.population);
  const limit = rule.locked ? `(${firstOf([[`${population} = 0`, '0']], '1')})` : population;
  const parts = [set.gate && print(set.gate), plan.scope && print(plan.scope)];
  if (set.population && !rule.anyPopulation) parts.push(limit);
  const scope = joined(
    'AND',
    parts.flatMap((part) => part ?? []),
  );
  const when = plan.expect === undefined ? print(plan.when) : `(NOT ${print(plan.expect)})`;
  const outcome = plan.switchedOff
    ? `'switched-off'`
    : firstOf(
        [
          [`${scope} = 0`, `'not-in-scope'`],
          [`${when} = 0`, `'does-not-apply'`],
          [`${scope} = 1 AND ${when} = 1`, `'applies'`],
        ],
        `'undetermined'`,
      );
  return { set: set.release.id, rule: rule.id, scope, when, outcome };
}

/** Prints a node of the plan; a part that a rule does not have is true. Each place is printed once. */
function printer(plan: Plan): Print {
  const { codes } = plan.patientFacts;
  const bits = (fact: Fact): ReadonlyMap<string, number> =>
    bitsOf(fact, { codes: (list) => codes.get(list) ?? [] });
  const texts = new Map<number, string>(
    plan.constants.map(([at, truth]) => [at, truth === TRUE ? '1' : truth === FALSE ? '0' : 'NULL']),
  );
  const leaves = new Map<number, Leaf>(plan.patient.leaves.map((leaf) => [leaf.at, leaf]));
  const write = (node: Node): string => {
    switch (node.kind) {
      case 'fact':
        return leafSql(plan.facts.get(node.fact)!, leaves.get(node.at)!.test, bits);
      case 'parameter':
        throw new RangeError(`${node.parameter} has no truth in the plan`);
      case 'named':
        return print(node.of[0]);
      case 'not':
        return `(NOT ${print(node.of[0])})`;
      case 'all':
        return joined('AND', node.of.map(print));
      case 'any':
        return joined('OR', node.of.map(print));
    }
  };
  const print: Print = (node) => {
    if (node === undefined) return '1';
    const known = texts.get(node.at) ?? write(node);
    texts.set(node.at, known);
    return known;
  };
  return print;
}

const joined = (word: 'AND' | 'OR', parts: readonly string[]): string =>
  parts.length === 0 ? '1' : parts.length === 1 ? parts[0]! : `(${parts.join(` ${word} `)})`;

/** Every value that the columns allow makes it true, or none does, or it is unknown. */
function leafSql(fact: Fact, test: LeafTest, bits: (fact: Fact) => ReadonlyMap<string, number>): string {
  const plain = positiveSql(fact, test, bits);
  return test.negated ? `(NOT ${plain})` : plain;
}

function positiveSql(fact: Fact, test: LeafTest, bits: (fact: Fact) => ReadonlyMap<string, number>): string {
  const of = (part: string): string => column(fact.id, part);
  switch (test.kind) {
    case 'recorded':
      return settled(`${of('recorded')} = 3`, `${of('recorded')} = 0`);
    case 'compare':
      return compared(test.comparison, of('low'), of('high'), literal(test.to));
    case 'member': {
      const own = bits(fact);
      const inside = maskOf(own, test.members);
      const outside = maskOf(own) - inside;
      return settled(
        all([shares(of('may'), inside), `(${of('may')} & ${outside}) = 0`]),
        `(${of('may')} & ${inside}) = 0`,
      );
    }
    case 'contains': {
      const wanted = maskOf(bits(fact), test.codes);
      return settled(shares(of('yes'), wanted), `(${of('open')} & ${wanted}) = 0`);
    }
  }
}

function compared(
  comparison: Extract<LeafTest, { readonly kind: 'compare' }>['comparison'],
  low: string,
  high: string,
  to: string,
): string {
  switch (comparison) {
    case 'lessThan':
      return settled(`${high} < ${to}`, `${low} >= ${to}`);
    case 'lessThanInclusive':
      return settled(`${high} <= ${to}`, `${low} > ${to}`);
    case 'greaterThan':
      return settled(`${low} > ${to}`, `${high} <= ${to}`);
    case 'greaterThanInclusive':
      return settled(`${low} >= ${to}`, `${high} < ${to}`);
    case 'equal':
      return settled(`${low} = ${to} AND ${high} = ${to}`, `(${low} > ${to} OR ${high} < ${to})`);
  }
}

const settled = (isTrue: string, isFalse: string): string =>
  `(CASE WHEN ${isTrue} THEN 1 WHEN ${isFalse} THEN 0 END)`;
