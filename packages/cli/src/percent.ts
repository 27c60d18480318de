import { CannotRun } from './cannotRun.ts';
import type { Given } from './options.ts';

const PERCENT = /^\d{1,3}(\.\d+)?$/;

/** A percentage from 0 to 100, where the option is given. */
export function percentOf(given: Given, option: string): number | undefined {
  const text = given.one(option);
  if (text === undefined) return undefined;
  const percent = PERCENT.test(text) ? Number(text) : Number.NaN;
  if (!(percent <= 100)) throw new CannotRun(`\`--${option} ${text}\` is no percentage from 0 to 100`);
  return percent;
}
