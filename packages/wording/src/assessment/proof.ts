import type { RuleReasons, RuleResult } from '@dwellset/core';
import { ruleReasonLines } from '../conditions/reason.ts';
import { wrap } from '../layout.ts';
import type { Context } from './context.ts';

const OUTCOME: Readonly<Record<RuleResult['outcome'], string>> = {
  applies: 'applies',
  'does-not-apply': 'does not apply',
  undetermined: 'not yet decided',
  'not-in-scope': 'not in scope',
  'switched-off': 'switched off by local choice',
};

const CHECK: Readonly<Record<NonNullable<RuleResult['check']>, string>> = {
  met: 'met',
  'not-met': 'not met',
  'not-recorded': 'not recorded',
  undetermined: 'not yet decided',
  'not-applicable': 'not applicable',
  'switched-off': 'switched off by local choice',
};

/** How a rule ended, in the words that people see. */
export const outcomeWords = (rule: Pick<RuleResult, 'outcome' | 'check'>): string =>
  rule.check === undefined ? OUTCOME[rule.outcome] : CHECK[rule.check];

/** The outcome, and what a hospital did to the rule. */
export const endedWords = (rule: RuleResult): string =>
  outcomeWords(rule) + (rule.local ? ` · ${rule.local.change} here: ${rule.local.reason}` : '');

/** Out of scope it is enough to see what put it there: the rest of the statement decided nothing. */
export function shownReasons({ outcome, reasons }: RuleResult): RuleReasons {
  if (outcome !== 'not-in-scope' || !reasons) return reasons ?? {};
  const { population, gate, scope } = reasons;
  return {
    ...(population?.truth === 'false' && { population }),
    ...(gate?.truth === 'false' && { gate }),
    ...(scope?.truth === 'false' && { scope }),
  };
}

export const PROOF_HEADING = 'Proof, rule by rule';

/** Every rule with its whole statement of reasons. */
export function proofSection({ assessment, words, zone, width }: Context): string[] {
  const lines = assessment.ruleSets.flatMap((set) =>
    set.rules.flatMap((rule) => [
      '',
      ...wrap(`${rule.title} – ${endedWords(rule)}`, width, '  ', '     '),
      ...wrap(`${set.id}/${rule.id}`, width, '     '),
      ...ruleReasonLines(shownReasons(rule), { words, zone, width, indent: 5, mark: true }),
    ]),
  );
  return [PROOF_HEADING, ...lines];
}
