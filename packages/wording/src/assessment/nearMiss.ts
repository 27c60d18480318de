import type { FactReading, Reason, RuleResult, RuleSetResult } from '@dwellset/core';
import { foundWords } from '../values/reading.ts';
import { valueWords } from '../values/value.ts';
import { factTitle } from '../words.ts';
import type { Content } from './context.ts';

type FactReason = Extract<Reason, { kind: 'fact' }>;

interface NearMiss {
  readonly rule: RuleResult;
  /** What was found that kept it from being met. */
  readonly against: readonly FactReason[];
}

function decidingLeaves(reason: Reason): FactReason[] {
  if (!reason.deciding) return [];
  if (reason.kind === 'fact') return [reason];
  return 'of' in reason ? reason.of.flatMap(decidingLeaves) : [];
}

/**
 * Where no rule of a decision concluded anything: the rules that were asked about and not met. The first of their
 * conditions, which names the reason, is true, and what was found against the others decided. A rule whose reason
 * nobody gave is no near miss.
 */
export function nearMisses({ shape, population, rules }: RuleSetResult): NearMiss[] {
  const concluded = rules.some(({ outcome, concludes }) => outcome === 'applies' && concludes !== undefined);
  if (shape !== 'decision' || population === 'out' || concluded) return [];
  return rules.flatMap((rule) => {
    const when = rule.reasons?.when;
    if (rule.outcome !== 'does-not-apply' || when?.kind !== 'all' || when.of[0]?.truth !== 'true') return [];
    return [{ rule, against: decidingLeaves(when) }];
  });
}

/** What was found, and which values count by local choice. */
function againstWords(
  { read, parameter, expected }: FactReason,
  { words, zone }: Content,
  day?: string,
): string {
  const found = `${factTitle(read.fact, words)}: ${foundWords(read as FactReading, words, zone, day)}`;
  const choice = parameter === undefined ? undefined : words.parameters.get(parameter);
  if (choice === undefined || expected === undefined) return found;
  return `${found}; what counts by local choice: ${valueWords(expected, choice, words, zone, 'or')}`;
}

/** Each rule that was weighed and not met, with what stood against it. */
export const nearMissWords = (
  set: RuleSetResult,
  content: Content,
  day?: string,
): { readonly rule: RuleResult; readonly said: string }[] =>
  nearMisses(set).map(({ rule, against }) => ({
    rule,
    said: [...new Set(against.map((leaf) => againstWords(leaf, content, day)))].join('; '),
  }));
