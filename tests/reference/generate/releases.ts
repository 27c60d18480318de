import type { Condition, Fact, Release, Rule, Shape, StockItem } from '@dwellset/core';
import { makeFact, makeRelease, makeRule } from '../release.ts';
import { generateCondition, parameterLeaf, type Terms } from './conditions.ts';
import { lookup } from './derivations.ts';
import { MOMENTS } from './moments.ts';
import type { Random } from './random.ts';
import { codesOf, generateVocabulary, type Vocabulary } from './vocabulary.ts';

export interface Generated {
  readonly releases: readonly Release[];
  /** The moment that its instants lie around, and a zone in which something happens there. */
  readonly around: number;
  readonly zone: string;
}

const SHAPES: readonly (readonly [number, Shape])[] = [
  [3, 'advice'],
  [2, 'decision'],
  [3, 'checklist'],
  [1.5, 'choice'],
];

/** One rule set, or now and then two that share a dictionary, the second reading what the first concludes. */
export function generateReleases(random: Random): Generated {
  const [zone, at] = random.pick(MOMENTS);
  const vocabulary = generateVocabulary(random);
  const optionFacts = generateOptionFacts(random, vocabulary);
  const around = Date.parse(at);
  const isPair = random.chance(0.1);
  const shape = isPair && random.chance(0.6) ? 'decision' : random.weighted(SHAPES);
  const first = generateRelease(random, 'first', shape, vocabulary, optionFacts, around);
  if (!isPair) return { releases: [first], around, zone };
  const reading = { ...vocabulary, facts: [...vocabulary.facts, CONCLUDED] };
  const base = shape === 'decision' ? reading : vocabulary;
  const second = generateRelease(random, 'second', random.weighted(SHAPES), base, optionFacts, around);
  return { releases: [first, second], around, zone };
}

const CONCLUDED = makeFact('conclusion.first', {
  type: 'code',
  codes: 'conclusions',
  from: { conclusion: 'first' },
});

function generateRelease(
  random: Random,
  id: string,
  shape: Shape,
  vocabulary: Vocabulary,
  optionFacts: readonly Fact[],
  around: number,
): Release {
  const patient: Terms = { facts: vocabulary.facts, named: [], around };
  const conditions: Record<string, Condition> = {};
  for (const name of ['named-one', 'named-two'].slice(0, random.integer(0, 2)))
    conditions[name] = generateCondition(random, { ...patient, named: Object.keys(conditions) }, 2);
  const terms = { ...patient, named: Object.keys(conditions) };
  const stock = shape === 'choice' ? { catheter: generateStock(random), gel: generateStock(random) } : {};
  const rules: Rule[] = [];
  for (let index = random.integer(3, 5); index > 0; index--)
    rules.push(generateRule(random, `rule-${index}`, shape, terms, optionFacts, rules));
  const maybe = (probability: number, key: string, depth: number) =>
    random.chance(probability) ? { [key]: generateCondition(random, terms, depth) } : {};
  return makeRelease({
    ...vocabulary,
    id,
    shape,
    conditions,
    facts: [...vocabulary.facts, ...(shape === 'choice' ? optionFacts : [])],
    stock,
    rules,
    ...(random.chance(0.35)
      ? { population: { when: generateCondition(random, terms, 2), otherwise: 'not this patient' } }
      : {}),
    ...maybe(0.4, 'scope', 2),
    ...(shape === 'decision'
      ? { conclusions: CONCLUSIONS, defaultConclusion: { id: 'none', title: 'none' } }
      : {}),
  });
}

const CONCLUSIONS = ['strong', 'middle', 'weak'].map((id) => ({ id, title: id }));

function generateRule(
  random: Random,
  id: string,
  shape: Shape,
  terms: Terms,
  optionFacts: readonly Fact[],
  before: readonly Rule[],
): Rule {
  const condition = (depth: number) => generateCondition(random, terms, depth);
  const ofOption = () =>
    generateCondition(random, { ...terms, facts: optionFacts, named: [] }, random.integer(1, 2));
  const scope = random.weighted<() => Partial<Rule>>([
    [5, () => ({})],
    [3, () => ({ scope: condition(2) })],
    [0.6, () => ({ scope: parameterLeaf(random) })],
  ])();
  const superseded = random.some(
    before.map((rule) => rule.id),
    0.1,
  );
  const depth = random.integer(1, 4);
  const body: Partial<Rule> =
    shape === 'checklist'
      ? { expect: condition(depth) }
      : shape === 'choice' && random.chance(0.2)
        ? {}
        : { when: condition(depth) };
  const choice = (): Partial<Rule> => ({
    of: random.pick(['catheter', 'catheter', 'gel']),
    ...random.weighted<() => Partial<Rule>>([
      [5, () => ({ excludes: ofOption() })],
      [2, () => ({ prefers: { options: ofOption() } })],
      [
        2,
        () => ({ prefers: { lowest: random.pick(optionFacts.filter((fact) => fact.type === 'number')).id } }),
      ],
      [1, () => ({ remarks: ofOption() })],
    ])(),
  });
  return makeRule(id, {
    ...scope,
    ...body,
    ...(shape === 'decision' && random.chance(0.85) ? { concludes: random.pick(CONCLUSIONS).id } : {}),
    ...(shape === 'choice' ? choice() : {}),
    ...(random.chance(0.2) ? { locked: true } : {}),
    ...(random.chance(0.1) ? { anyPopulation: true } : {}),
    ...(random.chance(0.05) ? { local: { change: 'switched-off', reason: 'not used here' } as const } : {}),
    ...(superseded.length > 0 ? { supersedes: superseded } : {}),
  });
}

function generateOptionFacts(random: Random, { facts }: Vocabulary): Fact[] {
  const material = makeFact('option.material', { type: 'code', codes: 'materials' });
  const volumes = facts.filter((fact) => fact.type === 'number' && fact.unit === 'mL');
  const table = makeFact('option.table-days', {
    type: 'number',
    unit: 'mL',
    step: 1,
    from: { lookup: { table: 'table.materials', key: material.id, column: 'days' } },
  });
  const spare = (patientFact: string) =>
    makeFact('option.spare', {
      type: 'number',
      unit: 'mL',
      step: 0.5,
      from: { difference: ['option.longest', patientFact] },
    });
  return [
    makeFact('option.size', { type: 'number', unit: '[Ch]', limits: [4, 30], step: 1 }),
    material,
    makeFact('option.coated', { type: 'boolean' }),
    makeFact('option.label-days', { type: 'number', unit: 'mL', limits: [0, 20], step: 1 }),
    table,
    makeFact('option.longest', {
      type: 'number',
      unit: 'mL',
      step: 1,
      from: { firstRecorded: ['option.label-days', 'option.table-days'] },
    }),
    lookup(random, 'option.looked-up', material),
    ...(volumes.length > 0 ? [spare(random.pick(volumes).id)] : []),
  ];
}

function generateStock(random: Random): StockItem[] {
  return Array.from({ length: random.integer(2, 3) }, (_, index) => ({
    id: `item-${index}`,
    title: `item ${index}`,
    facts: generateAttributes(random),
  }));
}

/** Attributes as a stock list or a label states them; some are missing. */
export function generateAttributes(random: Random): Record<string, never> {
  const size = { value: random.pick([8, 10, 12, 14]), unit: '[Ch]' };
  const all = {
    'option.size': random.chance(0.1) ? { ...size, comparator: '<=' } : size,
    'option.material': random.pick(codesOf('materials')),
    'option.coated': random.chance(0.5),
    'option.label-days': { value: random.integer(1, 12), unit: 'mL' },
  };
  return Object.fromEntries(random.some(Object.entries(all), 0.8)) as Record<string, never>;
}
