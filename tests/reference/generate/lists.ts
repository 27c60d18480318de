import type { Derivation, Fact, FieldCondition, ItemField, Items, Window } from '@dwellset/core';
import { makeFact } from '../release.ts';
import { COMPARISONS, numberNear } from './conditions.ts';
import type { Random } from './random.ts';
import { codesOf } from './vocabulary.ts';

type Fields = Readonly<Record<string, ItemField>>;

const VOLUME: ItemField = { type: 'number', title: 'volume', unit: 'mL', limits: [0, 20], step: 1 };
const MATERIAL: ItemField = { type: 'code', title: 'material', codes: 'materials' };
const instant = (title: string): ItemField => ({ type: 'date-time', title });
const number = (title: string, unit: string, from: Derivation): ItemField => ({
  type: 'number',
  title,
  unit,
  from,
});

const KINDS: readonly (Pick<Fact, 'kind' | 'at'> & { readonly item: Fields })[] = [
  {
    kind: 'measured',
    at: ['from', 'to'],
    item: {
      rate: number('rate', 'mL/h', { ratio: ['volume', 'hours'] }),
      from: instant('from'),
      to: instant('to'),
      volume: VOLUME,
      hours: number('hours', 'h', { elapsed: { from: 'from', to: 'to' } }),
      clear: { type: 'boolean', title: 'clear' },
    },
  },
  {
    kind: 'events',
    at: ['at'],
    item: {
      at: instant('at'),
      volume: VOLUME,
      material: MATERIAL,
      by: { type: 'text', title: 'by' },
      ago: number('ago', 'h', { elapsed: { from: 'at', to: 'asOf' } }),
    },
  },
  {
    kind: 'things',
    item: {
      item: { type: 'text', title: 'item' },
      'use-by': { type: 'date', title: 'use by', monthMeans: 'last-day' },
      intact: { type: 'boolean', title: 'intact' },
      volume: VOLUME,
      'days-left': number('days left', 'd', { calendarDays: { from: 'asOf', to: 'use-by' } }),
    },
  },
];

/** A list and what is asked of it. */
export function generateLists(random: Random, facts: readonly Fact[]): Fact[] {
  const shape = random.weighted([
    [3, KINDS[0]],
    [2, KINDS[1]],
    [1.5, KINDS[2]],
  ] as const) as (typeof KINDS)[number];
  const stale = random.chance(0.5) ? { staleAfter: random.pick(['PT1H', 'PT4H', 'P1D']) } : {};
  const list = makeFact('urine.list', { type: 'list', ...shape, ...stale });
  const count = random.integer(2, 4);
  return [
    list,
    ...Array.from({ length: count }, (_, index) =>
      aggregateOf(random, `urine.of-list-${index}`, list, facts),
    ),
  ];
}

function aggregateOf(random: Random, id: string, list: Fact, facts: readonly Fact[]): Fact {
  const item = list.item as Fields;
  const fields = Object.entries(item);
  const numbers = fields.filter(([, field]) => field.type === 'number');
  const items: Items = {
    of: list.id,
    ...(random.chance(0.6) ? { where: fieldCondition(random, fields, 2) } : {}),
    ...(list.kind !== 'things' && random.chance(0.8) ? { within: windowOf(random, facts) } : {}),
  };
  const of = (unit: string, from: Derivation, limits: readonly [number, number]) =>
    makeFact(id, { type: 'number', unit, ...(random.chance(0.4) ? { limits } : {}), from });
  const [name, field] = random.pick(numbers);
  const unit = field.unit as string;
  const newest = () => {
    const [newestName, { type, unit: own, codes }] = random.pick(fields.filter(([, f]) => f.type !== 'text'));
    const parts = { ...(own ? { unit: own } : {}), ...(codes ? { codes } : {}) };
    return makeFact(id, { type, ...parts, from: { newest: { ...items, field: newestName } } });
  };
  const rank = random.chance(0.4) ? { rank: 2 } : {};
  const distinct = random.chance(0.4) ? { distinct: random.pick(fields)[0] } : {};
  return random.weighted<() => Fact>([
    [3, () => of('1', { count: { ...items, ...distinct } }, [0, 6])],
    [3, () => of('mL', { total: { ...items, field: 'volume' } }, [0, 100])],
    [2, () => of(unit, { least: { ...items, field: name } }, [0, 30])],
    [2, () => of(unit, { greatest: { ...items, field: name, ...rank } }, [0, 30])],
    [list.kind === 'things' ? 0 : 2, newest],
    [list.kind === 'measured' ? 4 : 0, () => of('h', { longestRun: items }, [0, 72])],
  ])();
}

function windowOf(random: Random, facts: readonly Fact[]): Window {
  const instants = facts.filter((fact) => fact.type === 'date-time');
  const last = () =>
    random.pick<Window['last']>([
      { value: random.integer(1, 12), unit: 'h' },
      { value: 1, unit: 'd' },
      { parameter: 'choice.hours' },
    ]) as NonNullable<Window['last']>;
  return {
    ...(instants.length > 0 && random.chance(0.4) ? { since: random.pick(instants).id } : {}),
    ...(random.chance(0.55) ? { last: last() } : {}),
    ...(random.chance(0.2) ? { newest: random.integer(1, 3) } : {}),
    ...(random.chance(0.4) ? { until: random.pick(['newest', 'newest', 'asOf'] as const) } : {}),
  };
}

function fieldCondition(
  random: Random,
  fields: readonly (readonly [string, ItemField])[],
  depth: number,
): FieldCondition {
  const inner = () => fieldCondition(random, fields, depth - 1);
  const leaf = (): FieldCondition => {
    const [field, { type, unit, limits, step }] = random.pick(fields);
    if (random.chance(0.1)) return { field, operator: random.pick(['recorded', 'notRecorded'] as const) };
    if (type === 'boolean') return { field, operator: 'equal', value: random.chance(0.5) };
    if (type === 'code')
      return {
        field,
        operator: random.pick(['in', 'notIn'] as const),
        value: random.some(codesOf('materials')),
      };
    if (type !== 'number') return leaf();
    const near = numberNear(random, {
      ...makeFact(field, { type }),
      limits: limits ?? [0, 16],
      step: step ?? 1,
    });
    const value = unit === 'mL' && random.chance(0.3) ? { parameter: 'choice.volume' } : near;
    return { field, operator: random.pick(COMPARISONS), value };
  };
  return random.weighted<() => FieldCondition>([
    [5, leaf],
    [depth > 1 ? 1 : 0, () => ({ all: [inner(), inner()] })],
    [depth > 1 ? 1 : 0, () => ({ any: [inner(), inner()] })],
    [depth > 1 ? 1 : 0, () => ({ not: inner() })],
  ])();
}
