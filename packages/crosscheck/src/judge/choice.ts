import { fails, isOpen, type Pair } from '../bounds/pair.ts';
import type { OptionStanding } from './option.ts';

/** What the second engine makes of one stock list. */
export interface ChoiceStanding {
  readonly of: string;
  /** By rank, equals in the order of the list; what is ruled out comes last. */
  readonly options: readonly OptionStanding[];
  /** Option id → rank, from 1 and shared by ties; ruled-out options have none. */
  readonly ranks: ReadonlyMap<string, number>;
  readonly provisional: boolean;
  /** Where every option is ruled out: the fewest rules that do it. */
  readonly nothingLeft?: readonly string[];
  /** The item in the hand, where the case names one. */
  readonly chosen?: OptionStanding;
}

/**
 * Ranks the options of one stock list. `about` says whether the set is about this patient at all: where it is not,
 * nothing is offered and only what a stop rules out is left; where that is open, the order may still change.
 */
export function choose(
  of: string,
  judged: readonly OptionStanding[],
  ruleOrder: readonly string[],
  about: Pair,
): ChoiceStanding {
  const out = judged.filter(({ state }) => state === 'ruled-out');
  if (fails(about)) return { of, options: out, ranks: new Map(), provisional: false };
  const left = judged.filter(({ state }) => state !== 'ruled-out');
  const nothing = judged.length > 0 && left.length === 0;
  return {
    of,
    options: [...left].sort(before).concat(out),
    ranks: ranksOf(left),
    provisional: isOpen(about) || left.some(({ state, unsure }) => state !== 'open' || unsure),
    ...(nothing ? { nothingLeft: fewestCovering(judged, ruleOrder) } : {}),
  };
}

function ranksOf(left: readonly OptionStanding[]): ReadonlyMap<string, number> {
  const rank = (option: OptionStanding) => 1 + left.filter((other) => before(other, option) < 0).length;
  return new Map(left.map((option) => [option.id, rank(option)]));
}

/** Held options come last; then the preferring rules in their order, the first difference deciding. */
function before(a: OptionStanding, b: OptionStanding): number {
  const held = Number(a.state === 'held') - Number(b.state === 'held');
  if (held !== 0) return held;
  for (const [index, place] of a.places.entries()) {
    const other = b.places[index] ?? Infinity;
    if (place !== other) return place < other ? -1 : 1;
  }
  return 0;
}

/** The smallest set of rules that covers every option; among equals the one that comes first in rule order. */
function fewestCovering(options: readonly OptionStanding[], ruleOrder: readonly string[]): readonly string[] {
  const rules = ruleOrder.filter((rule) => options.some(({ excludedBy }) => excludedBy.includes(rule)));
  const covers = (chosen: readonly string[]) =>
    options.every(({ excludedBy }) => excludedBy.some((rule) => chosen.includes(rule)));
  for (let size = 1; size <= rules.length; size++) {
    const found = subsets(rules, size).find(covers);
    if (found) return found;
  }
  return rules;
}

function subsets(rules: readonly string[], size: number): readonly (readonly string[])[] {
  if (size === 0) return [[]];
  return rules.flatMap((rule, index) =>
    subsets(rules.slice(index + 1), size - 1).map((rest) => [rule, ...rest]),
  );
}
