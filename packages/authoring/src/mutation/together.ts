import {
  type Condition,
  compile,
  type Parameter,
  type Plan,
  type PlanRule,
  type PlanSet,
  type Release,
  type Rule,
} from '@dwellset/core';
import { conditionIn, type Patch, patched, RULE_PARTS, touchedBy, withCondition } from './patch.ts';

/** The set as it stands or with one mistake, over a table of truths that holds all of them. */
export interface Variant {
  readonly set: PlanSet;
  readonly plan: Plan;
}

export interface Together {
  /** The set without a mistake. */
  readonly own: Variant;
  /** In the order of the patches. */
  readonly variants: readonly Variant[];
}

/** No id of a document holds this sign. */
const MARK = '~';

/**
 * Compiles a release once with every mistake beside it, so that a case is read once for all of them. What a patch
 * changes is entered under a name of its own; equal conditions share their place in the table of truths.
 */
export function together(releases: readonly Release[], patches: readonly Patch[]): Together {
  const [release, ...read] = releases as readonly [Release, ...Release[]];
  const entered = patches.map((patch, index) => enter(release, patch, `${MARK}${index}`));
  const whole: Release = {
    ...release,
    conditions: Object.assign({}, release.conditions, ...entered.map(({ conditions }) => conditions)),
    parameters: [...release.parameters, ...entered.flatMap(({ parameters = [] }) => parameters)],
    rules: [...release.rules, ...entered.flatMap(({ rules }) => rules)],
  };
  const plan = compile([whole, ...read], { allow: ['draft', 'retired', 'withdrawn', 'out-of-period'] });
  const set = plan.sets.find((one) => one.release.id === release.id)!;
  const variant = (other: Partial<PlanSet>, own: Release): Variant => {
    const rules = set.rules.slice(0, release.rules.length);
    const changed: PlanSet = { ...set, rules, release: own, ...other };
    return { set: changed, plan: { ...plan, sets: plan.sets.map((one) => (one === set ? changed : one)) } };
  };
  const compiled = new Map(set.rules.map((rule) => [rule.rule.id, rule]));
  return {
    own: variant({}, release),
    variants: entered.map(({ gate, population, mark }, index) => {
      const own = patched(release, patches[index]!);
      const rules = own.rules.map((rule): PlanRule => {
        const found = compiled.get(rule.id + mark) ?? compiled.get(rule.id)!;
        return { ...found, rule };
      });
      const limits = {
        ...(gate === undefined ? {} : { gate: compiled.get(gate)!.when }),
        ...(population === undefined ? {} : { population: compiled.get(population)!.when }),
      };
      return variant({ rules, ...limits }, own);
    }),
  };
}

interface Entered {
  readonly mark: string;
  readonly conditions: Readonly<Record<string, Condition>>;
  readonly parameters?: readonly Parameter[];
  readonly rules: readonly Rule[];
  /** Names under which the limits of the set are entered as the `when` of a rule. */
  readonly gate?: string;
  readonly population?: string;
}

function enter(release: Release, patch: Patch, mark: string): Entered {
  const bare = (id: string, rest: Partial<Rule>): Rule => ({
    id,
    title: '',
    because: '',
    evidence: [],
    ...rest,
  });
  if ('rule' in patch) {
    const rule = release.rules.find(({ id }) => id === patch.rule)!;
    const changed = withCondition(rule, patch.part, patch.condition);
    return { mark, conditions: {}, rules: [{ ...changed, id: rule.id + mark }] };
  }
  if ('set' in patch) {
    const id = `${patch.set}${mark}`;
    const rules = [bare(id, { when: patch.condition })];
    return { mark, conditions: {}, rules, [patch.set === 'scope' ? 'gate' : 'population']: id };
  }
  const name = 'named' in patch ? patch.named : patch.parameter;
  const { conditions: names, rests } = touchedBy(release, name);
  const renamed = (condition: Condition): Condition =>
    renameIn(condition, 'named' in patch ? names : new Set([...names, name]), mark);
  const conditions = Object.fromEntries(
    [...names].map((other) => [
      other + mark,
      renamed('named' in patch && other === name ? patch.condition : release.conditions[other]!),
    ]),
  );
  const choice = release.parameters.find(({ id }) => id === name);
  const parameters =
    'parameter' in patch && choice ? [{ ...choice, id: name + mark, value: patch.value }] : [];
  const rules = release.rules.flatMap((rule): Rule[] => {
    const parts = RULE_PARTS.filter((part) => rests(conditionIn(rule, part)));
    if (parts.length === 0) return [];
    const changed = parts.reduce(
      (sofar, part) => withCondition(sofar, part, renamed(conditionIn(rule, part)!)),
      rule,
    );
    return [{ ...changed, id: rule.id + mark }];
  });
  const { scope, population } = release;
  const limits = {
    ...(rests(scope) ? { gate: scope } : {}),
    ...(rests(population?.when) ? { population: population.when } : {}),
  };
  const ofLimits = Object.entries(limits).map(([name, condition]) =>
    bare(name + mark, { when: renamed(condition) }),
  );
  const named = Object.fromEntries(Object.keys(limits).map((name) => [name, name + mark]));
  return { mark, conditions, parameters, rules: [...rules, ...ofLimits], ...named };
}

function renameIn(condition: Condition, names: ReadonlySet<string>, mark: string): Condition {
  const inner = (one: Condition): Condition => renameIn(one, names, mark);
  const marked = (name: string): string => (names.has(name) ? name + mark : name);
  if ('all' in condition) return { all: condition.all.map(inner) };
  if ('any' in condition) return { any: condition.any.map(inner) };
  if ('not' in condition) return { not: inner(condition.not) };
  if ('condition' in condition) return { condition: marked(condition.condition) };
  const { value } = condition;
  const held =
    typeof value === 'object' && 'parameter' in value
      ? { value: { parameter: marked(value.parameter) } }
      : {};
  return 'fact' in condition
    ? { ...condition, ...held }
    : { ...condition, ...held, parameter: marked(condition.parameter) };
}
