import type { Condition, Release } from '@dwellset/core';
import { conditionSentence, namedWords } from '../conditions/sentence.ts';
import { counted, listed, lowerFirst } from '../words.ts';

/** One thing that vignettes should show. */
export interface GoalShown {
  readonly what: string;
  readonly state: 'covered' | 'uncovered' | 'impossible';
  readonly proof?: { readonly combinations: number; readonly facts: readonly string[] };
}

interface PlaceShown {
  readonly path: string;
  readonly range: { readonly line: number; readonly column: number };
}

/** A rule, a condition, a limit or an option of a stock list, with what vignettes should show of it. */
export interface ItemShown {
  readonly place: PlaceShown;
  readonly goals: readonly GoalShown[];
  readonly rule?: string;
  readonly check?: boolean;
  readonly home?: { readonly rule?: string; readonly part?: string; readonly named?: string };
  readonly condition?: Condition;
  readonly of?: string;
  readonly option?: string;
}

/** What is missing of a goal, behind "never". */
const NEVER: Readonly<Record<string, string>> = {
  applies: 'applying',
  'does-not-apply': 'not applying',
  undetermined: 'undetermined',
  'not-in-scope': 'not in scope',
  true: 'true',
  false: 'false',
  unknown: 'unknown',
  alone: 'deciding alone, once true and once false',
  below: 'met just below',
  at: 'met exactly at',
  above: 'met just above',
  kept: 'kept as open',
  'ruled-out': 'ruled out',
  remarked: 'seen with its remark on an item',
  unremarked: 'seen without its remark on an item',
};

/** A check is met where its rule does not apply. */
const NEVER_CHECKED: Readonly<Record<string, string>> = {
  applies: 'not met',
  'does-not-apply': 'met',
  undetermined: 'not recorded or undetermined',
  'not-in-scope': 'not applicable',
};

export const goalWords = ({ what }: GoalShown, { check }: ItemShown): string =>
  (check ? NEVER_CHECKED[what] : undefined) ?? NEVER[what] ?? what;

const SIDES: readonly string[] = ['below', 'at', 'above'];

/** How it was proven that a goal cannot be reached. */
export function proofWords({ what, proof }: GoalShown): string {
  if (proof === undefined) return '';
  if (SIDES.includes(what)) return 'the fact cannot have that value';
  if (proof.combinations === 0) return 'no rule excludes anything from this list';
  if (proof.facts.length > 0) {
    return `none of ${counted(proof.combinations, 'combination')} of ${counted(proof.facts.length, 'fact')}`;
  }
  return what === 'unknown' || what === 'undetermined'
    ? 'settled even while no fact is known'
    : 'settled by local choices alone';
}

const PARTS: Readonly<Record<string, string>> = {
  population: 'population of the set',
  scope: 'scope of the set',
};

/** Which item it is: the rule and its part, or the named condition, and the comparison in words. */
export function itemWords(item: ItemShown, release: Release | undefined): string {
  if (item.option !== undefined) return `${item.of} ${item.option}`;
  if (item.home === undefined) return `rule ${item.rule}`;
  const { rule, part = '', named } = item.home;
  const where =
    rule === undefined
      ? named === undefined
        ? PARTS[part]
        : `condition ${namedWords(named)}`
      : `${rule}, ${part}`;
  if (item.condition === undefined || release === undefined) return where ?? part;
  return `${where}: ${lowerFirst(conditionSentence(item.condition, release)).replace(/\.$/, '')}`;
}

export const neverWords = (goals: readonly GoalShown[], item: ItemShown): string =>
  `never ${listed(
    goals.map((goal) => goalWords(goal, item)),
    'or',
  )}`;
