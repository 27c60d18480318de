import type { Condition, FactType, Operator, Release } from '@dwellset/core';
import type { ReferenceSet } from '../reference/assess.ts';
import { ABSENT } from '../reference/generate/cases.ts';
import { OPERATORS_OF } from '../reference/generate/conditions.ts';
import type { World } from '../reference/world.ts';

const EVERY: readonly FactType[] = ['boolean', 'number', 'code', 'codes', 'date', 'date-time', 'text'];
const DERIVED: readonly FactType[] = EVERY.filter((type) => type !== 'text');
/** Why a value is not exactly known, and the types of fact it can happen to. */
const CAUSES: Readonly<Record<string, readonly FactType[]>> = {
  ...Object.fromEntries(ABSENT.map((reason) => [reason, EVERY])),
  'not-supplied': EVERY,
  'nothing-recorded': EVERY,
  stale: EVERY,
  undated: EVERY,
  conflicting: EVERY,
  'wrong-type': EVERY,
  'wrong-unit': ['number'],
  impossible: ['number'],
  unusual: ['number'],
  'within-bounds': ['number', 'codes', 'date-time'],
  'no-entry': DERIVED,
  derived: DERIVED,
};

const takes = (operator: Operator, type: FactType) =>
  ['recorded', 'notRecorded'].includes(operator) || OPERATORS_OF[type].includes(operator);

/** What a run has covered: outcomes, and each operator against each way of not being known. */
export class Mix {
  readonly outcomes = new Map<string, number>();
  readonly pairs = new Map<string, number>();
  private leaves: readonly [operator: Operator, fact: string][] = [];

  start(releases: readonly Release[]): void {
    const conditions = releases.flatMap((release) => [
      ...[release.population?.when, release.scope, ...Object.values(release.conditions)],
      ...release.rules.flatMap((rule) => [rule.scope, rule.when, rule.expect]),
    ]);
    this.leaves = conditions.flatMap((condition) => (condition === undefined ? [] : leavesOf(condition)));
  }

  add(sets: readonly ReferenceSet[], world: World): void {
    for (const set of sets) for (const outcome of Object.values(set.rules)) count(this.outcomes, outcome);
    for (const [operator, fact] of this.leaves) {
      const cause = world.know(fact).cause;
      if (cause !== undefined) count(this.pairs, `${operator} × ${cause}`);
    }
  }

  /** Operator and cause pairs that can meet but did so fewer times than asked for. */
  rarePairs(operators: readonly Operator[], least: number): string[] {
    const possible = operators.flatMap((operator) =>
      Object.entries(CAUSES)
        .filter(([, types]) => types.some((type) => takes(operator, type)))
        .map(([cause]) => `${operator} × ${cause}`),
    );
    return possible
      .filter((pair) => (this.pairs.get(pair) ?? 0) < least)
      .map((pair) => `${pair}: ${this.pairs.get(pair) ?? 0}`);
  }

  share(outcome: string): number {
    const total = [...this.outcomes.values()].reduce((sum, one) => sum + one, 0);
    return (this.outcomes.get(outcome) ?? 0) / total;
  }

  text(): string {
    const shares = [...this.outcomes.keys()]
      .sort()
      .map((outcome) => `${outcome} ${(100 * this.share(outcome)).toFixed(1)} %`);
    const fewest = [...this.pairs].sort((one, other) => one[1] - other[1])[0];
    return `${shares.join(', ')}; ${this.pairs.size} pairs of operator and cause, fewest ${fewest?.join(' ')}`;
  }
}

function count(tally: Map<string, number>, key: string): void {
  tally.set(key, (tally.get(key) ?? 0) + 1);
}

function leavesOf(condition: Condition): [Operator, string][] {
  if ('all' in condition) return condition.all.flatMap(leavesOf);
  if ('any' in condition) return condition.any.flatMap(leavesOf);
  if ('not' in condition) return leavesOf(condition.not);
  return 'fact' in condition ? [[condition.operator, condition.fact]] : [];
}
