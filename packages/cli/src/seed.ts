import { CannotRun } from './cannotRun.ts';
import type { Given } from './options.ts';

const MOST = 2 ** 31 - 1;

/** The seed of invented patients; 1 unless stated. */
export function seedOf(given: Given): number {
  const text = given.one('seed') ?? '1';
  const seed = /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
  if (!(seed <= MOST)) throw new CannotRun(`\`--seed ${text}\` is no whole number from 0 to ${MOST}`);
  return seed;
}
