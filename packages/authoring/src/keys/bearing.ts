import type { PlanSet, Release, RuleSetResult } from '@dwellset/core';
import type { Bearing } from './shape.ts';

/** What the rules of one set came to for one patient. */
export interface Outcome {
  readonly set: RuleSetResult;
  readonly release: PlanSet['release'];
  /** Facts that rules of the set wait for. */
  readonly asks: readonly string[];
}

export const bearingsOf = (release: Release, ids: readonly string[]): Bearing[] =>
  release.rules
    .filter(({ id }) => ids.includes(id))
    .map(({ id, title, evidence }) => ({ set: release.id, rule: id, title, evidence }));

export const shares = (a: readonly string[], b: readonly string[]): boolean =>
  a.some((one) => b.includes(one));

/** Rules that rest on one of these rows. */
export const restingOn = (release: Release, rows: readonly string[]): string[] =>
  release.rules.filter(({ evidence }) => shares(evidence, rows)).map(({ id }) => id);
