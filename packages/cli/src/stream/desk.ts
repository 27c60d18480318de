import { caseReader } from '@dwellset/authoring';
import { RULES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { type Given, readOptions } from '../options.ts';
import { planOf } from '../planOf.ts';
import type { Desk, Reasons } from './assessBlock.ts';

/** The options that say which rules run, so that a thread can be told them. */
export const rulesArgv = (given: Given): string[] =>
  Object.keys(RULES).flatMap((name) => given.all(name).map((value) => `--${name}=${value}`));

/** Reads the rules that a command line names. */
export function deskOf(argv: readonly string[], reasons: Reasons): Desk {
  const given = readOptions('assess', argv, RULES, 0);
  const policies = readPolicies(given.one('policies'), given.one('hospital'));
  return { plan: planOf(policies, given), read: caseReader(policies.library), reasons };
}
