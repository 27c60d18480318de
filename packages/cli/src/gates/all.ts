import { GATES, type Gate } from '@dwellset/authoring';
import { CannotRun } from '../cannotRun.ts';
import type { Given } from '../options.ts';
import { secondEngine } from './secondEngine.ts';

/** What a set must pass before it is released, in the order in which it is reported. */
export const ALL_GATES: readonly Gate[] = [...GATES, secondEngine()];

export const GATE_IDS = ALL_GATES.map(({ id }) => id).join(', ');

/** Gate → why it may be passed in spite of what it finds. */
export function acceptedOf(given: Given): ReadonlyMap<string, string> {
  return new Map(
    given.all('accept').map((text): [string, string] => {
      const at = text.indexOf('=');
      const [gate, reason] = [text.slice(0, at), text.slice(at + 1).trim()];
      if (at < 0 || reason === '' || !ALL_GATES.some(({ id }) => id === gate)) {
        throw new CannotRun(`\`--accept ${text}\` is no GATE=REASON; gates are: ${GATE_IDS}`);
      }
      return [gate, reason];
    }),
  );
}
