import type { Condition, Constant, Release, Rule } from '@dwellset/core';

/** The parts of a rule that hold a condition. */
export const RULE_PARTS = ['scope', 'when', 'expect', 'excludes', 'prefers', 'remarks'] as const;
export type RulePart = (typeof RULE_PARTS)[number];

/** What a mistake puts instead into a release. */
export type Patch =
  | { readonly rule: string; readonly part: RulePart; readonly condition: Condition | undefined }
  | { readonly named: string; readonly condition: Condition }
  | { readonly set: 'population' | 'scope'; readonly condition: Condition }
  | { readonly parameter: string; readonly value: Constant };

/** The condition of a part of a rule; none where a rule prefers the lowest of a fact. */
export function conditionIn(rule: Rule, part: RulePart): Condition | undefined {
  if (part !== 'prefers') return rule[part];
  return rule.prefers && 'options' in rule.prefers ? rule.prefers.options : undefined;
}

export function withCondition(rule: Rule, part: RulePart, condition: Condition | undefined): Rule {
  const { [part]: _, ...rest } = rule;
  if (condition === undefined) return rest as Rule;
  return { ...rest, [part]: part === 'prefers' ? { options: condition } : condition } as Rule;
}

/** The release with the mistake in it. */
export function patched(release: Release, patch: Patch): Release {
  if ('rule' in patch) {
    const { part, condition } = patch;
    const rules = release.rules.map((rule) =>
      rule.id === patch.rule ? withCondition(rule, part, condition) : rule,
    );
    return { ...release, rules };
  }
  if ('named' in patch) {
    return { ...release, conditions: { ...release.conditions, [patch.named]: patch.condition } };
  }
  if ('parameter' in patch) {
    const parameters = release.parameters.map((one) =>
      one.id === patch.parameter ? { ...one, value: patch.value } : one,
    );
    return { ...release, parameters };
  }
  if (patch.set === 'scope') return { ...release, scope: patch.condition };
  const { population } = release;
  return population ? { ...release, population: { ...population, when: patch.condition } } : release;
}

/** Names of conditions, and of local choices, that a condition mentions. */
function mentions(condition: Condition): string[] {
  if ('all' in condition) return condition.all.flatMap(mentions);
  if ('any' in condition) return condition.any.flatMap(mentions);
  if ('not' in condition) return mentions(condition.not);
  if ('condition' in condition) return [condition.condition];
  const { value } = condition;
  const choice = typeof value === 'object' && 'parameter' in value ? [value.parameter] : [];
  return 'parameter' in condition ? [condition.parameter, ...choice] : choice;
}

/** What a patch changes inside a condition: names of conditions and of local choices, or nothing. */
export interface Touched {
  /** Named conditions that are, or rest on, what is changed. */
  readonly conditions: ReadonlySet<string>;
  readonly rests: (condition: Condition | undefined) => condition is Condition;
}

/** The named conditions and the conditions of rules that rest on a name. */
export function touchedBy({ conditions }: Release, name: string): Touched {
  const found = new Set(Object.hasOwn(conditions, name) ? [name] : []);
  const hit = (condition: Condition | undefined): condition is Condition =>
    condition !== undefined && mentions(condition).some((other) => other === name || found.has(other));
  let size = -1;
  while (size < found.size) {
    size = found.size;
    for (const [other, condition] of Object.entries(conditions)) if (hit(condition)) found.add(other);
  }
  return { conditions: found, rests: hit };
}

/** Rules whose conditions a patch changes. */
export function rulesUnder(release: Release, patch: Patch): readonly Rule[] {
  const all = release.rules;
  const limited = all.filter(({ anyPopulation }) => !anyPopulation);
  if ('rule' in patch) return all.filter(({ id }) => id === patch.rule);
  if ('set' in patch) return patch.set === 'scope' ? all : limited;
  const { rests } = touchedBy(release, 'named' in patch ? patch.named : patch.parameter);
  if (rests(release.scope)) return all;
  const ofPopulation = rests(release.population?.when) ? limited : [];
  return all.filter(
    (rule) => ofPopulation.includes(rule) || RULE_PARTS.some((part) => rests(conditionIn(rule, part))),
  );
}
