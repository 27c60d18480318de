import type { Condition, Reading, Release } from '@dwellset/core';
import { boundsOf } from '../../../packages/crosscheck/src/bounds/factBounds.ts';
import { wordOf } from '../../../packages/crosscheck/src/bounds/pair.ts';
import { groupEngine } from '../../../packages/crosscheck/src/engine/groupEngine.ts';
import { toJsonRulesEngine } from '../../../packages/crosscheck/src/translate/toJsonRulesEngine.ts';
import { release, rule } from './releases.ts';

/** What the second engine says of one condition. */
export async function secondTruth(
  condition: Condition,
  known: ReadonlyMap<string, Reading>,
  parts: Partial<Release> = {},
): Promise<'true' | 'false' | 'unknown'> {
  const translation = toJsonRulesEngine(release({ ...parts, rules: [rule('one', { when: condition })] }));
  const bounds = new Map([...known].map(([id, reading]) => [id, boundsOf(reading)]));
  const answers = await groupEngine(translation, translation.patient).run(bounds);
  return wordOf(answers.of('one', 'when')!);
}

/** Translates one condition as the `when` of a rule; throws where it is refused. */
export const translateOnly = (condition: Condition, parts: Partial<Release> = {}) =>
  toJsonRulesEngine(release({ ...parts, rules: [rule('one', { when: condition })] }));
