import type { Assessment, Release, RuleResult, RuleSetResult } from '@dwellset/core';
import type { Words } from '../words.ts';

/** What the sentences of an assessment need, whatever they are set in. */
export interface Content {
  readonly assessment: Assessment;
  readonly words: Words;
  /** The releases that spoke, as far as they are at hand. */
  readonly releases: readonly Release[];
  readonly zone: string;
  /** Show what was found behind each advice. */
  readonly findings: boolean;
}

/** What every section of an assessment's text needs. */
export interface Context extends Content {
  readonly width: number;
}

/** Sentences under one label; `steps` are done one after the other. */
export interface Part {
  readonly label: string;
  readonly texts: readonly string[];
  readonly steps?: true;
}

export const setOf = (context: Content, id: string): RuleSetResult | undefined =>
  context.assessment.ruleSets.find((set) => set.id === id);

export const ruleOf = (context: Content, set: string, rule: string): RuleResult | undefined =>
  setOf(context, set)?.rules.find(({ id }) => id === rule);

/**
 * Title of a rule in quotation marks, named as `set/rule`, `set@version/rule` or, within a set, by its id alone;
 * the name where it is not in the assessment.
 */
export function ruleTitle(context: Content, name: string, within = ''): string {
  const [rule = '', set = within] = name.split('/').reverse();
  return `"${ruleOf(context, set.split('@')[0] ?? '', rule)?.title ?? name}"`;
}
