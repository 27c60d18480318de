import type { Constant, Parameter, PlanRule, Release } from '@dwellset/core';
import { releasesFor } from '../../build/buildRelease.ts';
import { below, placeAt } from '../../coverage/places.ts';
import { defaultEdits } from '../../mutation/defaults.ts';
import { conditionIn, RULE_PARTS, touchedBy } from '../../mutation/patch.ts';
import { together, type Variant } from '../../mutation/together.ts';
import { type Draft, nodesOf, proofOf } from '../draft.ts';
import { type Layout, NOBODY, type Region, within } from '../region.ts';
import { STEPS } from '../relations.ts';
import { itemNodeOf, Subject } from '../subject.ts';

/**
 * Local choices of which every value that a hospital may take comes to the same, for every patient of whom everything
 * that matters is known: each rule applies to the same combinations of atoms, or rests on conditions that are equal
 * word for word. A choice that a text shows, that a fact follows from or that another set reads has its effect there.
 */
export function* choicesWithoutEffect(subject: Subject): Generator<Draft> {
  const { library, documents, hospital, release } = subject;
  const releases = releasesFor(library, documents.id, hospital === undefined ? {} : { hospital });
  const candidates = release.parameters.filter((one) => !hasOtherEffect(releases, one.id));
  const tried = candidates.flatMap((parameter) =>
    valuesOf(release, parameter).map((value) => ({ parameter: parameter.id, value })),
  );
  const { own, variants } = together(releases, tried);
  // Only the rules that a value moves, as they stand and as they would be.
  const moved = variants.flatMap(({ set }) =>
    set.rules.flatMap((rule, index) => {
      const before = own.set.rules[index]!;
      return partsOf(rule) === partsOf(before) ? [] : [before, rule];
    }),
  );
  const rules = [...new Set(moved)];
  const beside = new Subject({ ...subject, plan: own.plan, set: { ...own.set, rules } });
  for (const { id } of candidates) {
    const mine = variants.filter((_, index) => tried[index]!.parameter === id);
    if (mine.length === 0 || mine.some((variant) => mayDiffer(beside, own, variant))) continue;
    const placed = library.parameters.get(id);
    if (placed === undefined) continue;
    yield {
      kind: 'choice-without-effect',
      of: [id],
      certainty: 'certain',
      place: placeAt(below(placed, 'default')),
      proof: { facts: factsBehind(subject, id) },
    };
  }
}

/** What the rules that name a choice rest on. */
function factsBehind(subject: Subject, id: string): readonly string[] {
  const { rests } = touchedBy(subject.release, id);
  const rules = subject.rules.filter(({ rule }) => RULE_PARTS.some((part) => rests(conditionIn(rule, part))));
  return proofOf(subject, nodesOf(subject, rules)).facts;
}

/** The published positions, the ends of the range, and what lies beside the value in force. */
function valuesOf(release: Release, parameter: Parameter): Constant[] {
  const { value, range, positions, type, codes } = parameter;
  const all: Constant[] = [
    ...defaultEdits(release, parameter),
    ...positions.map((position) => position.value),
    ...(range ?? []),
    ...(type === 'code' ? Object.keys(release.codes[codes ?? ''] ?? {}) : []),
  ];
  const seen = new Set([JSON.stringify(value)]);
  return all.filter((other) => {
    const key = JSON.stringify(other);
    return !seen.has(key) && Boolean(seen.add(key));
  });
}

const names = (value: unknown, id: string): boolean => JSON.stringify(value ?? null).includes(`"${id}"`);

/** Shown in a text, read by another set, or part of what a fact follows from. */
const hasOtherEffect = ([release, ...read]: readonly Release[], id: string): boolean =>
  read.some(({ parameters }) => parameters.some((one) => one.id === id)) ||
  release!.facts.some(({ from }) => names(from, id)) ||
  release!.rules.some(
    ({ advice, title }) => names(advice, id) || JSON.stringify([advice, title]).includes(`{{${id}}}`),
  );

/** Whether some rule may come to something else with another value; where it takes too many boxes, it may. */
function mayDiffer(beside: Subject, own: Variant, variant: Variant): boolean {
  const { gate, population } = own.set;
  if (gate?.at !== variant.set.gate?.at || population?.at !== variant.set.population?.at) return true;
  return own.set.rules.some((rule, index) => {
    const other = variant.set.rules[index]!;
    return partsOf(rule) !== partsOf(other) && !comeToTheSame(beside, rule, other);
  });
}

/** Conditions that are equal word for word share their place in the table of truths. */
const partsOf = (plan: PlanRule): string =>
  [plan.switchedOff, plan.scope?.at, plan.when?.at, plan.expect?.at, itemNodeOf(plan)?.at].join();

function comeToTheSame(beside: Subject, a: PlanRule, b: PlanRule): boolean {
  const kind = itemNodeOf(a) === undefined ? undefined : a.rule.of;
  const { layout } = beside.alphabet(kind);
  const said = (rule: PlanRule): readonly (Region | undefined)[] => {
    if (rule.switchedOff) return [NOBODY, NOBODY];
    const applies = kind === undefined ? beside.applies(rule) : beside.concerns(rule);
    // A check that is met is counted, one that is not applicable is not.
    return [applies, rule.expect === undefined ? NOBODY : beside.inScope(rule)];
  };
  const [one, other] = [said(a), said(b)];
  return one.every((region, index) => {
    const against = other[index];
    return region !== undefined && against !== undefined && areEqual(layout, region, against);
  });
}

const areEqual = (layout: Layout, a: Region, b: Region): boolean =>
  within(layout, a, b, { steps: STEPS }) === true && within(layout, b, a, { steps: STEPS }) === true;
