import type { Condition, Fact, Parameter, Release, Rule } from '@dwellset/core';
import { type Anchor, below, placeAt } from '../coverage/places.ts';
import { gridOf, resolutionOf } from '../coverage/resolution.ts';
import type { Home } from '../coverage/shape.ts';
import { type Describe, type Edit, editsOf } from './edits.ts';
import { conditionIn, type Patch, RULE_PARTS, rulesUnder } from './patch.ts';
import type { Mistake } from './shape.ts';
import { stepOf } from './values.ts';

/** A mistake, with what it puts into the release. */
export interface Planted {
  readonly mistake: Mistake;
  readonly patch: Patch;
}

export interface PlantAnchors {
  readonly ruleSet: Anchor;
  readonly rule: (id: string) => Anchor;
}

/** One step of a fact; of a number without steps, one in the last digit shown. */
const distance = (fact: Fact): number =>
  fact.type === 'number' ? (gridOf(fact) ?? stepOf(fact)) : resolutionOf(fact);

/** How the comparisons of a release may be mistaken. */
function describer(release: Release): Describe {
  const facts = new Map<string, Fact>(release.facts.map((fact) => [fact.id, fact]));
  const parameters = new Map<string, Parameter>(release.parameters.map((one) => [one.id, one]));
  const codesOf = (list: string | undefined): readonly string[] =>
    Object.keys(release.codes[list ?? ''] ?? {});
  return (leaf) => {
    const { value: stated } = leaf;
    const value =
      typeof stated === 'object' && 'parameter' in stated ? parameters.get(stated.parameter)?.value : stated;
    if ('fact' in leaf) {
      const fact = facts.get(leaf.fact);
      return fact && { type: fact.type, step: distance(fact), codes: codesOf(fact.codes), value };
    }
    const parameter = parameters.get(leaf.parameter);
    return (
      parameter && { type: parameter.type, step: stepOf(parameter), codes: codesOf(parameter.codes), value }
    );
  };
}

const isRunning = ({ local }: Rule): boolean => local?.change !== 'switched-off';

/** Every mistake in the conditions of a release: its population, its scope, its named conditions and its rules. */
export function plantIn(release: Release, anchors: PlantAnchors): Planted[] {
  const describe = describer(release);
  const { ruleSet } = anchors;
  const plant = (
    home: Home,
    condition: Condition | undefined,
    at: Anchor,
    patchOf: (whole: Condition | undefined) => Patch,
    extra: readonly Omit<Edit, 'whole'>[] = [],
  ): Planted[] => {
    if (condition === undefined) return [];
    const edits: (Omit<Edit, 'whole'> & { readonly whole?: Condition })[] = [
      ...editsOf(condition, describe),
      ...extra,
    ];
    const seen = new Set([JSON.stringify(condition)]);
    return edits.flatMap(({ kind, at: keys, before, after, whole }): Planted[] => {
      const key = JSON.stringify(whole ?? null);
      if (seen.has(key)) return [];
      seen.add(key);
      const patch = patchOf(whole);
      const rules = rulesUnder(release, patch);
      const place = placeAt(below(at, ...keys));
      const locked = rules.some((rule) => rule.locked === true);
      return [
        {
          mistake: {
            kind,
            home,
            place,
            rules: rules.map(({ id }) => id),
            locked,
            before,
            ...(after === undefined ? {} : { after }),
          },
          patch,
        },
      ];
    });
  };
  return [
    ...plant(
      { part: 'population' },
      release.population?.when,
      below(ruleSet, 'population', 'when'),
      (whole) => ({
        set: 'population',
        condition: whole!,
      }),
    ),
    ...plant({ part: 'scope' }, release.scope, below(ruleSet, 'scope'), (whole) => ({
      set: 'scope',
      condition: whole!,
    })),
    ...Object.entries(release.conditions).flatMap(([named, condition]) =>
      plant({ named }, condition, below(ruleSet, 'conditions', named), (whole) => ({
        named,
        condition: whole!,
      })),
    ),
    ...release.rules.filter(isRunning).flatMap((rule) =>
      RULE_PARTS.flatMap((part) => {
        const condition = conditionIn(rule, part);
        const pointer = part === 'prefers' ? [part, 'options'] : [part];
        // Without its scope a rule speaks to everybody.
        const forgotten =
          part === 'scope' && condition ? [{ kind: 'left-out' as const, at: [], before: condition }] : [];
        return plant(
          { rule: rule.id, part },
          condition,
          below(anchors.rule(rule.id), ...pointer),
          (whole) => ({ rule: rule.id, part, condition: whole }),
          forgotten,
        );
      }),
    ),
  ];
}
