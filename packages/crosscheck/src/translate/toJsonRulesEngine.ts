import type { Condition, Release, Rule } from '@dwellset/core';
import { FAMILIES } from '../bounds/boundsOperator.ts';
import { ALWAYS, ALWAYS_BOUNDS, type FactBounds } from '../bounds/factBounds.ts';
import { type EngineOperator, operators } from '../bounds/operators.ts';
import { type Surroundings, translateCondition } from './condition.ts';
import { type EngineNode, type EngineRule, type Part, partName } from './engineRule.ts';
import { TranslationError } from './translationError.ts';

/** Rules that read the same facts and run together. */
export interface RuleGroup {
  /** Ids of the facts that every run must supply as bounds, in the order of the release. */
  readonly facts: readonly string[];
  readonly rules: readonly EngineRule[];
}

/**
 * A release for json-rules-engine 7. Register `operators`, add the rules of one group, and run it with a bounds
 * value for each of its `facts` besides `constants`. Of each pair of rules the events tell what holds: both,
 * the part is true; `possibly` alone, it is unknown; neither, it is false.
 *
 * Leave `allowUndefinedFacts` off; await one run of an engine before the next (the end of a run silences another
 * that has just begun); and do not remove the library's own operators: removing `equal` removes `certainly:equal`.
 */
export interface Translation {
  readonly set: string;
  readonly version: string;
  readonly operators: readonly EngineOperator[];
  readonly constants: Readonly<Record<string, FactBounds>>;
  /** What reads the patient alone. */
  readonly patient: RuleGroup;
  /** Choice sets: what reads one option (and the patient), by kind of stock; run once for each option. */
  readonly options: Readonly<Record<string, RuleGroup>>;
}

/** Throws a TranslationError that lists every part of the release which has no exact translation. */
export function toJsonRulesEngine(release: Release): Translation {
  const problems: string[] = [];
  const kinds = new Set([...Object.keys(release.stock), ...release.rules.flatMap((rule) => rule.of ?? [])]);
  const patient = ruleGroup(release, patientParts(release), problems);
  const options = Object.fromEntries(
    [...kinds].map((kind) => [kind, ruleGroup(release, optionParts(release, kind), problems)]),
  );
  // Both halves of a pair find the same mistake.
  if (problems.length > 0) throw new TranslationError(release.id, [...new Set(problems)]);
  const constants = { [ALWAYS]: ALWAYS_BOUNDS };
  return { set: release.id, version: release.version, operators, constants, patient, options };
}

interface PartOf {
  readonly rule?: string;
  readonly part: Part;
  readonly condition: Condition | undefined;
}

function patientParts(release: Release): readonly PartOf[] {
  const ofRule = (rule: Rule): readonly PartOf[] => [
    { rule: rule.id, part: 'scope', condition: rule.scope },
    { rule: rule.id, part: 'when', condition: rule.when },
    { rule: rule.id, part: 'expect', condition: rule.expect },
  ];
  return [
    { part: 'population', condition: release.population?.when },
    { part: 'gate', condition: release.scope },
    ...release.rules.flatMap(ofRule),
  ];
}

function optionParts(release: Release, kind: string): readonly PartOf[] {
  const preferred = (rule: Rule) =>
    rule.prefers && 'options' in rule.prefers ? rule.prefers.options : undefined;
  return release.rules
    .filter((rule) => rule.of === kind)
    .flatMap((rule): readonly PartOf[] => [
      { rule: rule.id, part: 'excludes', condition: rule.excludes },
      { rule: rule.id, part: 'prefers', condition: preferred(rule) },
      { rule: rule.id, part: 'remarks', condition: rule.remarks },
    ]);
}

function ruleGroup(release: Release, parts: readonly PartOf[], problems: string[]): RuleGroup {
  const facts = new Map(release.facts.map((fact) => [fact.id, fact]));
  const parameters = new Map(release.parameters.map((parameter) => [parameter.id, parameter]));
  const rules = parts.flatMap(({ rule, part, condition }): readonly EngineRule[] => {
    if (!condition) return [];
    const where = partName(rule, part);
    const around: Surroundings = {
      conditions: release.conditions,
      facts,
      codes: release.codes,
      parameters,
      report: (problem) => problems.push(`${where}: ${problem}`),
    };
    return FAMILIES.map((family) => ({
      name: `${release.id}/${where}/${family}`,
      // The engine wants a group at the root, which also lets a single leaf stand.
      conditions: { all: [translateCondition(condition, family, around)] },
      event: { type: family, params: { set: release.id, ...(rule === undefined ? {} : { rule }), part } },
    }));
  });
  const read = new Set(rules.flatMap((rule) => factsIn(rule.conditions)));
  return { facts: release.facts.map((fact) => fact.id).filter((id) => read.has(id)), rules };
}

function factsIn(node: EngineNode): readonly string[] {
  if ('all' in node) return node.all.flatMap(factsIn);
  if ('any' in node) return node.any.flatMap(factsIn);
  return [node.fact];
}
