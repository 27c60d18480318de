import type { CodeList, Fact, Parameter, Table } from '@dwellset/core';
import { makeFact } from '../release.ts';
import { deriveFact } from './derivations.ts';
import { generateLists } from './lists.ts';
import type { Random } from './random.ts';

/** What conditions and cases can be made of. */
export interface Vocabulary {
  readonly facts: readonly Fact[];
  readonly codes: Readonly<Record<string, CodeList>>;
  readonly parameters: readonly Parameter[];
  readonly tables: readonly Table[];
}

export const GROUPS = ['patient', 'catheter', 'urine', 'review'];
const STALE = ['PT15M', 'PT4H', 'P1D', 'P2D', 'P7D'];
export const CODES: Readonly<Record<string, CodeList>> = {
  answers: words(['left', 'right']),
  materials: words(['pvc', 'latex', 'silicone', 'silver']),
  reasons: words(['retention', 'output', 'wound']),
  bands: words(['low', 'mid', 'high']),
  sides: words(['upper', 'lower']),
  conclusions: words(['strong', 'middle', 'weak', 'none']),
};
/** How many rule sets read a list of entries. */
const LISTED = 0.3;
/** The lists that supplied facts and tables use. */
const LISTS = ['answers', 'materials', 'reasons'];

function words(codes: readonly string[]): CodeList {
  return Object.fromEntries(codes.map((code) => [code, `in words: ${code}`]));
}

export const codesOf = (list: string) => Object.keys(CODES[list] as CodeList);

const NUMBERS: readonly (readonly [number, Pick<Fact, 'unit' | 'limits' | 'step'>])[] = [
  [4, { unit: 'mL', limits: [0, 20], step: 1 }],
  [3, { unit: 'h', limits: [0, 10], step: 0.5 }],
  [2, { unit: '1', limits: [0, 1], step: 0.1 }],
  [1, { unit: 'mL', limits: [0, 12] }],
  [1, { unit: '[Ch]' }],
];

export function generateVocabulary(random: Random): Vocabulary {
  const facts: Fact[] = [];
  for (let index = random.integer(5, 7); index > 0; index--) facts.push(baseFact(random, index, facts));
  if (random.chance(LISTED)) facts.push(...generateLists(random, facts));
  for (let index = random.integer(2, 4); index > 0; index--) {
    const inputs = facts.filter(isOperand);
    const fact = deriveFact(random, `${random.pick(GROUPS)}.derived-${index}`, inputs);
    if (fact !== undefined) facts.push(fact);
  }
  const tables = LISTS.map((key) => generateTable(random, key));
  return { facts, codes: CODES, parameters: generateParameters(random), tables };
}

/** The least and greatest of no entries are beyond every number, and nothing can be reckoned with them. */
const isOperand = ({ type, from }: Fact) =>
  type !== 'list' && !(from && ('least' in from || 'greatest' in from));

function baseFact(random: Random, index: number, facts: readonly Fact[]): Fact {
  const type = random.weighted<Fact['type']>([
    [3, 'boolean'],
    [4, 'number'],
    [2.5, 'code'],
    [2, 'codes'],
    [1.5, 'date'],
    [3, 'date-time'],
    [1, 'text'],
  ]);
  const id = `${random.pick(GROUPS)}.${type}-${index}`;
  const stale = random.chance(0.4) ? { staleAfter: random.pick(STALE) } : {};
  const list = { codes: random.pick(LISTS) };
  switch (type) {
    case 'number': {
      const kind = random.weighted(NUMBERS);
      const [low, high] = kind.limits ?? [4, 20];
      const usual = [low + 0.1 * (high - low), high - 0.2 * (high - low)] as const;
      return makeFact(id, { type, ...kind, ...(random.chance(0.5) ? { usual } : {}), ...stale });
    }
    case 'code':
      return makeFact(id, { type, ...list, ...stale });
    case 'codes':
      return makeFact(id, {
        type,
        ...list,
        ...random.pick([{}, { unlisted: 'no' }, { unlisted: 'unknown' }] as const),
        ...stale,
      });
    case 'date':
      return makeFact(id, { type, ...(random.chance(0.5) ? { monthMeans: 'last-day' } : {}), ...stale });
    case 'date-time': {
      const earlier = facts.filter((fact) => fact.type === 'date-time' && fact.staleAfter === undefined);
      if (earlier.length > 0 && random.chance(0.5))
        return makeFact(id, { type, notBefore: random.pick(earlier).id });
      return makeFact(id, { type, ...(random.chance(0.3) ? stale : {}) });
    }
    default:
      return makeFact(id, { type, ...stale });
  }
}

function generateParameters(random: Random): Parameter[] {
  const make = (id: string, parts: Pick<Parameter, 'type' | 'value'> & Partial<Parameter>): Parameter => ({
    id: `choice.${id}`,
    title: id,
    default: parts.value,
    cautious: 'neither',
    positions: [],
    ...parts,
  });
  return [
    make('volume', { type: 'number', unit: 'mL', step: 1, value: random.integer(1, 12) }),
    make('hours', { type: 'number', unit: 'h', step: 0.5, value: random.integer(1, 20) / 2 }),
    make('share', { type: 'number', unit: '1', step: 0.1, value: random.pick([0.1, 0.3, 0.5, 0.7]) }),
    make('flag', { type: 'boolean', value: random.chance(0.5) }),
    make('material', { type: 'code', codes: 'materials', value: random.pick(codesOf('materials')) }),
    make('materials', { type: 'codes', codes: 'materials', value: random.some(codesOf('materials')) }),
    make('side', { type: 'code', codes: 'sides', value: random.pick(['upper', 'lower']) }),
  ];
}

/** Cells may be empty, and a table without a row for every code says what the others mean. */
function generateTable(random: Random, key: string): Table {
  const maybe = <T>(value: T) => ({ value: random.chance(0.25) ? null : value });
  const row = () => ({
    days: maybe(random.integer(1, 12)),
    flag: maybe(random.chance(0.5)),
    reason: maybe(random.pick(codesOf('reasons'))),
  });
  const complete = random.chance(0.5);
  const keyed = codesOf(key).filter((_, index) => complete || index > 0);
  const otherwise = { days: random.chance(0.5) ? null : random.integer(1, 12), flag: null, reason: null };
  return {
    id: `table.${key}`,
    key,
    title: key,
    columns: {
      days: { type: 'number', unit: 'mL' },
      flag: { type: 'boolean' },
      reason: { type: 'code', codes: 'reasons' },
    },
    rows: Object.fromEntries(keyed.map((code) => [code, row()])),
    ...(complete ? {} : { otherwise }),
  };
}
