import type { Reason, RuleReasons, TruthWord } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { findingWords } from '../values/reading.ts';
import type { Words } from '../words.ts';
import { comparisonWords } from './leaf.ts';
import { choiceWords, inForceWords, namedWords } from './sentence.ts';

/** The truth of a condition as people see it. */
export const TRUTH: Readonly<Record<TruthWord, string>> = {
  true: 'true',
  false: 'false',
  unknown: 'not known',
};
/** The truth words stand in a column of their own, so that the eye can run down them. */
const COLUMN = 11;

export interface ReasonContent {
  readonly words: Words;
  readonly zone: string;
}

export interface ReasonOptions extends ReasonContent {
  readonly width: number;
  readonly indent?: number;
  /** Say which conditions decide; of use where the others are shown too. */
  readonly mark?: boolean;
}

/** What one condition asked and what was found, or how the conditions below it are joined. */
export function reasonWords(reason: Reason, { words, zone }: ReasonContent): string {
  switch (reason.kind) {
    case 'all':
      return 'all of these:';
    case 'any':
      return 'at least one of these:';
    case 'not':
      return 'the opposite of this:';
    case 'named':
      return `${namedWords(reason.name)}:`;
    case 'parameter':
      return `${choiceWords(reason.parameter, reason.operator, reason.expected, words)} – ${inForceWords(reason.parameter, reason.value, words)}`;
    case 'fact': {
      const choice =
        reason.parameter === undefined
          ? undefined
          : (words.parameters.get(reason.parameter)?.title ?? reason.parameter);
      const { read, operator, expected: value } = reason;
      return `${comparisonWords({ fact: read.fact, operator, value, choice }, words, zone)} – ${findingWords(read, words, zone)}`;
    }
  }
}

/** A statement of reasons as lines: the truth of each condition, what was asked, what was read and from where. */
export function reasonLines(reason: Reason, options: ReasonOptions): string[] {
  const { width, indent = 0, mark = false } = options;
  const margin = ' '.repeat(indent);
  const decides = mark && reason.deciding ? ' · decides' : '';
  const own = wrap(
    reasonWords(reason, options) + decides,
    width,
    margin + TRUTH[reason.truth].padEnd(COLUMN),
  );
  const below = 'of' in reason ? reason.of : [];
  return [...own, ...below.flatMap((part) => reasonLines(part, { ...options, indent: indent + 2 }))];
}

/** The parts of a statement of reasons with their headings. */
export const PARTS: readonly (readonly [keyof RuleReasons, string])[] = [
  ['population', 'Patients the set is for'],
  ['gate', 'When the set is asked'],
  ['scope', 'Where the rule counts'],
  ['when', 'When the rule applies'],
  ['expect', 'What has to hold'],
];

/** Every part of one rule's statement under a line that names it. */
export function ruleReasonLines(reasons: RuleReasons, options: ReasonOptions): string[] {
  const { indent = 0 } = options;
  return PARTS.flatMap(([part, heading]) => {
    const reason = reasons[part];
    if (!reason) return [];
    return [`${' '.repeat(indent)}${heading}`, ...reasonLines(reason, { ...options, indent: indent + 2 })];
  });
}
