import type { Condition, Constant, Release } from '@dwellset/core';
import { conditionSentence, namedWords } from '../conditions/sentence.ts';
import { codeWords, valueWords } from '../values/value.ts';
import { listed, lowerFirst, type Words } from '../words.ts';

/** One mistake, and where it stands. */
export interface MistakeShown {
  readonly kind: string;
  readonly home: {
    readonly rule?: string;
    readonly part?: string;
    readonly named?: string;
    readonly parameter?: string;
  };
  readonly before: Condition | Constant;
  readonly after?: Condition | Constant;
}

const isCondition = (value: Condition | Constant | undefined): value is Condition =>
  typeof value === 'object' && !Array.isArray(value);

const bare = (condition: Condition, release: Release): string =>
  lowerFirst(conditionSentence(condition, release)).replace(/\.$/, '');

/** Which part of a set a condition belongs to. */
function homeWords({ rule, part, named, parameter }: MistakeShown['home'], words: Words): string {
  if (parameter !== undefined) {
    return `local choice ${lowerFirst(words.parameters.get(parameter)?.title ?? parameter)}`;
  }
  if (named !== undefined) return `condition ${namedWords(named)}`;
  return rule === undefined ? `${part} of the set` : `${rule}, ${part}`;
}

/** The codes of a comparison, resolved where they are a local choice. */
function codesOf(
  value: Condition | Constant,
  words: Words,
): { codes: readonly string[]; list: string | undefined } {
  if (!isCondition(value)) return { codes: [value].flat().map(String), list: undefined };
  if (!('value' in value) || value.value === undefined) return { codes: [], list: undefined };
  const { value: right } = value;
  const held =
    typeof right === 'object' && 'parameter' in right ? words.parameters.get(right.parameter)?.value : right;
  const list =
    'fact' in value ? words.facts.get(value.fact)?.codes : words.parameters.get(value.parameter)?.codes;
  return { codes: [held ?? []].flat().map(String), list };
}

/** Codes that are missing, and those that stand in their place. */
function codeChange(
  before: Condition | Constant,
  after: Condition | Constant,
  words: Words,
  list: string | undefined,
): string {
  const [a, b] = [codesOf(before, words), codesOf(after, words)];
  const said = (codes: readonly string[]): string =>
    listed(
      codes.map((code) => `"${codeWords(code, a.list ?? list, words)}"`),
      'and',
    );
  const gone = a.codes.filter((code) => !b.codes.includes(code));
  const come = b.codes.filter((code) => !a.codes.includes(code));
  if (come.length === 0) return `${said(gone)} left out of ${a.codes.length}`;
  return gone.length === 0 ? `${said(come)} added` : `${said(come)} written for ${said(gone)}`;
}

/** What was planted, in one sentence without its full stop. */
export function mistakeWords(mistake: MistakeShown, release: Release | undefined, words: Words): string {
  const { kind, before, after, home } = mistake;
  const where = homeWords(home, words);
  if (home.parameter !== undefined && after !== undefined && !isCondition(before) && !isCondition(after)) {
    const parameter = words.parameters.get(home.parameter);
    if (typeof before === 'object' || parameter?.codes !== undefined) {
      return `${where}: ${codeChange(before, after, words, parameter?.codes)}`;
    }
    const said = (value: Constant): string => valueWords(value, parameter, words);
    return `${where}: ${said(after)} for ${said(before)}`;
  }
  if (!isCondition(before) || release === undefined) return where;
  if (after === undefined) return `${where}: left out: ${bare(before, release)}`;
  if (!isCondition(after)) return where;
  if (kind === 'code')
    return `${where}: ${codeChange(before, after, words, undefined)} in: ${bare(before, release)}`;
  if (kind === 'group') {
    const [was, is] = 'all' in before ? ['all of these', 'any of these'] : ['any of these', 'all of these'];
    return `${where}: "${is}" written for "${was}": ${bare(before, release)}`;
  }
  return `${where}: "${bare(after, release)}" written for "${bare(before, release)}"`;
}
