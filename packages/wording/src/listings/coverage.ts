import type { Release } from '@dwellset/core';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { counted, listed } from '../words.ts';
import {
  type GoalShown,
  goalWords,
  type ItemShown,
  itemWords,
  neverWords,
  proofWords,
} from './coverageItems.ts';
import { placeWords } from './diagnostic.ts';

interface TotalShown {
  readonly covered: number;
  readonly uncovered: number;
  readonly impossible: number;
  readonly percent: number;
}

/** What the vignettes of one set show of it. */
export interface SetCoverageShown {
  readonly set: string;
  readonly vignettes: number;
  readonly refused?: readonly string[];
  readonly totals: Readonly<Record<'outcomes' | 'truths' | 'alone' | 'limits' | 'options', TotalShown>>;
  readonly rules: readonly ItemShown[];
  readonly conditions: readonly ItemShown[];
  readonly limits: readonly ItemShown[];
  readonly options: readonly ItemShown[];
  readonly remarks: readonly ItemShown[];
}

export interface CoverageTextOptions {
  readonly width?: number;
  /** They hold the words of the conditions; without them a condition is named by its place only. */
  readonly releases?: readonly Release[];
  /** A path of the library as the reader would type it. */
  readonly shown?: (path: string) => string;
}

const LABELS: Readonly<Record<keyof SetCoverageShown['totals'], string>> = {
  outcomes: 'outcomes of rules',
  truths: 'conditions seen true, false, unknown',
  alone: 'conditions that decide alone',
  limits: 'limits below, at, above',
  options: 'options kept, ruled out, remarked on',
};

const WIDEST = Math.max(...Object.values(LABELS).map((label) => label.length));

function totalLine(label: string, { covered, uncovered, impossible, percent }: TotalShown): string[] {
  if (covered + uncovered + impossible === 0) return [];
  const count = `${String(covered).padStart(5)} of ${String(covered + uncovered).padStart(4)}`;
  const share = `${percent.toFixed(1).padStart(7)} %`;
  const proven = impossible === 0 ? '' : `  ${impossible} proven impossible`;
  return [`  ${label.padEnd(WIDEST)}${count}${share}${proven}`];
}

/** What "decides alone" means, in one sentence. */
const MASKING =
  'A condition decides alone where it was seen once true and once false and turning it round would each time have changed the outcome; whatever else differs between the two cases is masked (masking MC/DC).';

const placeOf = ({ place: { path, range } }: ItemShown): string => `${path}:${range.line}:${range.column}`;

/** What is left of the items of a set, in the order of their places; a condition and its limit stand together. */
function itemsWith(set: SetCoverageShown, state: GoalShown['state']): [ItemShown, GoalShown[]][] {
  const found = new Map<string, [ItemShown, GoalShown[]]>();
  for (const item of [...set.rules, ...set.conditions, ...set.limits, ...set.options, ...set.remarks]) {
    const goals = item.goals.filter((goal) => goal.state === state);
    const key = `${item.condition ? 'condition' : 'whole'} ${placeOf(item)}`;
    if (goals.length > 0) found.set(key, [item, [...(found.get(key)?.[1] ?? []), ...goals]]);
  }
  return [...found.values()].sort(
    ([{ place: a }], [{ place: b }]) =>
      (a.path < b.path ? -1 : a.path > b.path ? 1 : 0) ||
      a.range.line - b.range.line ||
      a.range.column - b.range.column,
  );
}

function setBlocks(set: SetCoverageShown, options: CoverageTextOptions, width: number): string[][] {
  const { refused = [], vignettes, totals } = set;
  const heading = clean(`${set.set}: covered by ${counted(vignettes, 'vignette')}`);
  if (refused.length > 0 || 'refused' in set) {
    return [[heading, ...wrap(`It does not run: ${refused.join('; ')}`, width, '  ')]];
  }
  const release = options.releases?.find(({ id }) => id === set.set);
  const place = ({ place: { path, range } }: ItemShown) =>
    placeWords({ path: options.shown?.(path) ?? path, range });
  const list = (
    title: string,
    state: GoalShown['state'],
    words: (goals: GoalShown[], item: ItemShown) => string,
  ) => {
    const items = itemsWith(set, state);
    if (items.length === 0) return [];
    const lines = items.flatMap(([item, goals]) => [
      place(item),
      ...wrap(`${itemWords(item, release)} – ${words(goals, item)}`, width, '  '),
    ]);
    return [[clean(title)], lines];
  };
  const proven = (goals: GoalShown[], item: ItemShown): string => {
    const reasons = [...new Set(goals.map(proofWords))];
    return reasons
      .map((reason) => {
        const own = goals.filter((goal) => proofWords(goal) === reason);
        return `never ${listed(
          own.map((goal) => goalWords(goal, item)),
          'or',
        )}: ${reason}`;
      })
      .join('; ');
  };
  return [
    [
      heading,
      ...Object.entries(LABELS).flatMap(([name, label]) =>
        totalLine(label, totals[name as keyof typeof LABELS]),
      ),
    ],
    ...list(`Not covered in ${set.set}`, 'uncovered', neverWords),
    ...list(`Proven impossible in ${set.set}`, 'impossible', proven),
  ];
}

/** The totals of every set, then all that its vignettes do not show, each with its place. */
export function coverageText(
  { sets }: { readonly sets: readonly SetCoverageShown[] },
  options: CoverageTextOptions = {},
): string {
  const width = usableWidth(options.width);
  return asText(
    blocks([
      ...sets.flatMap((set) => setBlocks(set, options, width)),
      sets.length === 0 ? ['No rule set was found.'] : wrap(MASKING, width),
    ]),
  );
}
