import { assess, type Case, type Node, type PlanRule } from '@dwellset/core';
import { casesOf } from '../../boxes/cases.ts';
import type { Facts } from '../../boxes/scene.ts';
import { smallest } from '../../boxes/smallest.ts';
import { anchorOfStock, placeAt } from '../../coverage/places.ts';
import { type Draft, nodesOf, proofOf } from '../draft.ts';
import { ofAll, ofAny, regionOf } from '../expand.ts';
import { type Box, meet, meets, type Region, within } from '../region.ts';
import { StockCuts } from '../stockCuts.ts';
import type { Subject } from '../subject.ts';
import { shownBy } from '../witness.ts';

const MOST_STEPS = 100_000;
const MOST_REJECTED = 40;

/** Stock lists of which some patient is left without any item. */
export function* nothingLeft(subject: Subject): Generator<Draft> {
  for (const [kind, options] of Object.entries(subject.set.stock)) {
    const excluding = subject.rules.filter(
      ({ rule, excludes }) => rule.of === kind && excludes !== undefined,
    );
    if (options.length === 0 || excluding.length === 0) continue;
    const nodes = [...nodesOf(subject, excluding), ...excluding.flatMap(({ excludes }) => excludes ?? [])];
    const cuts = new StockCuts(
      options.map(({ id }) => subject.scene(kind, id)),
      nodes,
    );
    const regions = options.map((_, index) => ruledOut(subject, cuts, index, excluding, nodes));
    const found = somebodyIn(cuts, regions, (facts) => leftWithout(subject, kind, facts));
    if (found === 'none') continue;
    const { documents, library, hospital } = subject;
    const place = placeAt(anchorOfStock(library, documents, kind, hospital));
    const of = { kind: 'nothing-left', of: [kind], place } as const;
    if (found === 'unsure') {
      yield { ...of, certainty: 'possible', proof: proofOf(subject, nodes, kind) };
      continue;
    }
    const heads = options.map(({ id }) => `excluded.${kind}.${id}`);
    yield { ...of, certainty: 'certain', witness: shownBy(subject, found, heads) };
  }
}

/** The patients for whom one item is ruled out. */
function ruledOut(
  { set }: Subject,
  cuts: StockCuts,
  index: number,
  excluding: readonly PlanRule[],
  nodes: readonly Node[],
): Region | undefined {
  const own = cuts.of(index, nodes);
  const regions: Region[] = [];
  for (const { rule, scope, when, excludes } of excluding) {
    const limits = rule.anyPopulation
      ? []
      : [regionOf(own, set.population, rule.locked ? 'not-false' : 'true')];
    const parts = [
      ...limits,
      ...[set.gate, scope, when, excludes].map((node) => regionOf(own, node, 'true')),
    ];
    if (parts.some((part) => part?.length === 0)) continue;
    const known = parts.flatMap((part) => (part === undefined ? [] : [part]));
    const region = known.length < parts.length ? undefined : ofAll(own, known);
    if (region === undefined) return undefined;
    regions.push(region);
  }
  return ofAny(regions);
}

/** Looks for a patient of all regions whom `patientOf` confirms: the region with the fewest boxes first. */
function somebodyIn(
  cuts: StockCuts,
  regions: readonly (Region | undefined)[],
  patientOf: (facts: Facts) => Case | undefined,
): Case | 'none' | 'unsure' {
  const { layout } = cuts;
  const known = regions.flatMap((region) => (region === undefined ? [] : [withoutParts(region, cuts)]));
  if (known.some((region) => region.length === 0)) return 'none';
  if (known.length < regions.length) return 'unsure';
  const ordered = known.sort((a, b) => a.length - b.length);
  let [steps, rejected] = [0, 0];
  const visit = (box: Box, index: number): Case | undefined => {
    steps += 1;
    if (steps > MOST_STEPS || rejected > MOST_REJECTED) return undefined;
    if (index === ordered.length) {
      const patient = patientOf(cuts.factsIn(box));
      if (patient === undefined) rejected += 1;
      return patient;
    }
    for (const other of ordered[index]!) {
      if (!meets(layout, box, other)) continue;
      const patient = visit(meet(layout, box, other)!, index + 1);
      if (patient) return patient;
    }
    return undefined;
  };
  const patient = visit({ words: [], masks: [] }, 0);
  return patient ?? (steps <= MOST_STEPS && rejected === 0 ? 'none' : 'unsure');
}

/** Boxes that lie within another one add nothing. */
function withoutParts(region: Region, { layout }: StockCuts): Region {
  return region.filter(
    (box, index) =>
      !region.some((other, at) => {
        if (at === index || within(layout, [box], [other], { steps: 100 }) !== true) return false;
        return at < index || within(layout, [other], [box], { steps: 100 }) !== true;
      }),
  );
}

/** The smallest patient of whom the core says that nothing is left. */
function leftWithout(subject: Subject, kind: string, facts: Facts): Case | undefined {
  const scene = subject.scene();
  const shows = (some: Facts): boolean =>
    assess(subject.plan, scene.caseOf(some), { reasons: 'none', asks: false, optionFacts: false })
      .ruleSets.find(({ id }) => id === subject.release.id)
      ?.choices?.some(({ of, nothingLeft }) => of === kind && nothingLeft !== undefined) ?? false;
  const box = new Map(
    Object.entries(facts).map(([fact, value]) => [
      { fact, places: [], values: [], complete: true },
      { value, truths: [] },
    ]),
  );
  for (const stated of casesOf(scene, box)) {
    if (shows(stated)) return scene.caseOf(smallest(stated, shows));
  }
  return undefined;
}
