import type { Assessment, RuleResult, RuleSetResult } from '@dwellset/core';
import type { Words } from '../words.ts';

/** What every section of an assessment's text needs. */
export interface Context {
  readonly assessment: Assessment;
  readonly words: Words;
  readonly zone: string;
  readonly width: number;
  /** Show what was found behind each advice. */
  readonly findings: boolean;
}

export const setOf = (context: Context, id: string): RuleSetResult | undefined =>
  context.assessment.ruleSets.find((set) => set.id === id);

export const ruleOf = (context: Context, set: string, rule: string): RuleResult | undefined =>
  setOf(context, set)?.rules.find(({ id }) => id === rule);

/**
 * Title of a rule in quotation marks, named as `set/rule`, `set@version/rule` or, within a set, by its id alone;
 * the name where it is not in the assessment.
 */
export function ruleTitle(context: Context, name: string, within = ''): string {
  const [rule = '', set = within] = name.split('/').reverse();
  return `"${ruleOf(context, set.split('@')[0] ?? '', rule)?.title ?? name}"`;
}
