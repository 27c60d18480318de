import type { Case, CaseValue, Condition, Release, Rule, StockItem } from '@dwellset/core';
import { truthsOf } from './assess.ts';
import { holds } from './condition.ts';
import { exact } from './known.ts';
import type { Sheet } from './supplied.ts';
import { all, type Truth } from './truth.ts';
import type { World } from './world.ts';

export interface Choice {
  readonly states: Readonly<Record<string, string>>;
  readonly ranks: Readonly<Record<string, number>>;
  readonly provisional: boolean;
  readonly nothingLeft?: readonly string[];
  /** The state of the item in the hand. */
  readonly chosen?: string;
}

interface Judged {
  readonly id: string;
  readonly state: string;
  readonly ruledOutBy: readonly string[];
  /** Smaller comes first; one number for each preferring rule. */
  readonly order: readonly number[];
  readonly preferenceOpen: boolean;
}

export function judgeChoices(release: Release, world: World): Record<string, Choice> {
  const kinds = Object.entries(release.stock);
  const limits = [release.population?.when, release.scope];
  const speaks = all(limits.map((limit) => (limit ? holds(limit, release.conditions, world) : 'true')));
  const judged = kinds.map(([kind, items]) => [kind, judgeKind(release, world, kind, items)] as const);
  if (speaks === 'false')
    return Object.fromEntries(judged.flatMap(([kind, choice]) => stopsOnly(kind, choice)));
  return Object.fromEntries(
    judged.map(([kind, choice]) => [
      kind,
      { ...choice, provisional: choice.provisional || speaks === 'unknown' },
    ]),
  );
}

/** Where the set is not about this patient, only what a stop rules out is left to say. */
function stopsOnly(kind: string, choice: Choice): [string, Choice][] {
  const stopped = Object.entries(choice.states).filter(([, state]) => state === 'ruled-out');
  const chosen = choice.chosen === 'ruled-out' ? { chosen: choice.chosen } : {};
  if (stopped.length === 0 && choice.chosen !== 'ruled-out') return [];
  return [[kind, { states: Object.fromEntries(stopped), ranks: {}, provisional: false, ...chosen }]];
}

function judgeKind(release: Release, world: World, kind: string, items: readonly StockItem[]): Choice {
  const rules = release.rules.filter(
    (rule) => rule.of === kind && !truthsOf(release, rule, world).switchedOff,
  );
  const applying = rules.map((rule) => {
    const { inScope, when } = truthsOf(release, rule, world);
    return { rule, applies: all([inScope, when]) };
  });
  const judge = (id: string, sheet: Sheet) => judgeItem(release, applying, id, world.lookingAt(sheet));
  const options = items.map((item) => judge(item.id, stockSheet(item)));
  const left = options.filter((option) => option.state !== 'ruled-out');
  const key = (option: Judged) => [option.state === 'held' ? 1 : 0, ...option.order];
  const before = (option: Judged) => left.filter((other) => compare(key(other), key(option)) < 0).length;
  const inHand = world.case.chosen?.[kind];
  const chosen = inHand === undefined ? undefined : chosenSheet(inHand, items, world.case);
  const nothingLeft = left.length === 0 && items.length > 0 ? fewestRules(rules, options) : undefined;
  return {
    states: Object.fromEntries(options.map((option) => [option.id, option.state])),
    ranks: Object.fromEntries(left.map((option) => [option.id, 1 + before(option)])),
    provisional: left.some((option) => option.state !== 'open' || option.preferenceOpen),
    ...(nothingLeft === undefined ? {} : { nothingLeft }),
    ...(chosen === undefined ? {} : { chosen: judge('chosen', chosen).state }),
  };
}

/** A stock list that leaves an attribute out has nothing recorded for it. */
const stockSheet = (item: StockItem): Sheet => ({ values: item.facts, searched: () => true });

function chosenSheet(
  inHand: string | Readonly<Record<string, CaseValue>>,
  items: readonly StockItem[],
  patient: Case,
): Sheet | undefined {
  if (typeof inHand !== 'string') {
    const { recordedAt } = patient;
    return { values: inHand, searched: () => false, ...(recordedAt === undefined ? {} : { recordedAt }) };
  }
  const item = items.find(({ id }) => id === inHand);
  return item && stockSheet(item);
}

interface Applying {
  readonly rule: Rule;
  readonly applies: Truth;
}

function judgeItem(release: Release, rules: readonly Applying[], id: string, world: World): Judged {
  const ofItem = (condition: Condition) => holds(condition, release.conditions, world);
  const excluding = rules.flatMap(({ rule, applies }) =>
    rule.excludes === undefined ? [] : [{ rule, truth: all([applies, ofItem(rule.excludes)]) }],
  );
  const ruledOutBy = excluding.filter(({ truth }) => truth === 'true').map(({ rule }) => rule.id);
  const open = excluding.filter(({ truth }) => truth === 'unknown').map(({ rule }) => rule);
  const state = open.some((rule) => rule.locked) ? 'held' : open.length > 0 ? 'to-confirm' : 'open';
  const preferences = rules.flatMap(({ rule, applies }) => {
    if (rule.prefers === undefined) return [];
    if ('options' in rule.prefers) {
      const truth = all([applies, ofItem(rule.prefers.options)]);
      return [{ truth, place: truth === 'false' ? 1 : 0 }];
    }
    const known = world.know(rule.prefers.lowest);
    const sure = exact(world.fact(rule.prefers.lowest), known);
    // A value that is not known comes last, and the order stays open.
    if (applies === 'false') return [{ truth: applies, place: 0 }];
    return [{ truth: sure ? applies : 'unknown', place: sure ? known.low : Infinity }];
  });
  return {
    id,
    state: ruledOutBy.length > 0 ? 'ruled-out' : state,
    ruledOutBy,
    order: preferences.map(({ place }) => place),
    preferenceOpen: preferences.some(({ truth }) => truth === 'unknown'),
  };
}

function compare(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((place, index) => place !== other[index]);
  return at < 0 ? 0 : (one[at] as number) < (other[at] as number) ? -1 : 1;
}

/** The smallest group of rules that together leaves nothing; of equals, the first in rule order. */
function fewestRules(rules: readonly Rule[], options: readonly Judged[]): readonly string[] {
  let groups: readonly (readonly string[])[] = [[]];
  for (;;) {
    const enough = groups.find((group) =>
      options.every((o) => o.ruledOutBy.some((id) => group.includes(id))),
    );
    if (enough !== undefined) return enough;
    groups = groups.flatMap((group) => {
      const last = group.at(-1);
      const from = last === undefined ? 0 : rules.findIndex((rule) => rule.id === last) + 1;
      return rules.slice(from).map((rule) => [...group, rule.id]);
    });
  }
}
