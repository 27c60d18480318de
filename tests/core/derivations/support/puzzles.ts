import type { Derivation, Fact, Operand, WitnessValue } from '@dwellset/core';
import type { ScalarKind } from '../../../../packages/core/src/facts/derivations/kinds.ts';
import type { Random } from '../../../reference/generate/random.ts';
import { fact } from './read.ts';

/** One derived fact and its operands, small enough to try every value of a grid. */
export interface Puzzle {
  readonly of: Fact;
  readonly operands: readonly Fact[];
}

const NUMBER_STEPS = [1, 0.5, 2, 5, 0.25, undefined] as const;
const limitsOf = (low: number, high: number): Pick<Fact, 'limits'> => ({ limits: [low, high] });
const maybe = <T extends object>(draw: Random, parts: T, probability = 0.5): T | Record<string, never> =>
  draw.chance(probability) ? parts : {};

function numberFact(draw: Random, id: string, unit: string, least: number): Fact {
  const step = draw.pick(NUMBER_STEPS);
  const low = least + draw.integer(0, 3);
  return fact(id, {
    type: 'number',
    unit,
    ...(step === undefined ? {} : { step }),
    ...limitsOf(low, low + draw.integer(0, 5)),
  });
}

function resultOf(draw: Random, unit: string, from: Derivation, low: number, high: number): Fact {
  const step = draw.pick([1, 0.5, 0.1, 5, 0.01, undefined]);
  return fact('out.value', {
    type: 'number',
    unit,
    ...(step === undefined ? {} : { step }),
    ...maybe(draw, limitsOf(low, high), 0.4),
    from,
  });
}

const number =
  (
    build: (draw: Random, operands: readonly Operand[]) => readonly [Derivation, string],
    least: number,
    count: readonly [number, number],
  ) =>
  (draw: Random): Puzzle => {
    const facts = Array.from({ length: draw.integer(...count) }, (_, index) =>
      numberFact(draw, `in.n${index}`, 'mL', least),
    );
    const others: Operand[] = draw.chance(0.2)
      ? [{ value: draw.integer(1, 4), unit: 'mL' }]
      : draw.chance(0.15)
        ? [{ parameter: 'choice.volume' }]
        : draw.chance(0.1)
          ? [facts[0]?.id ?? '']
          : [];
    const [from, unit] = build(draw, [...facts.map(({ id }) => id), ...others]);
    return { of: resultOf(draw, unit, from, -3, 6), operands: facts };
  };

const times = (draw: Random): readonly [Fact, Fact] => [
  fact('in.from', { type: 'date-time' }),
  fact('in.to', { type: 'date-time', ...maybe(draw, { notBefore: 'in.from' }) }),
];
const either = (draw: Random, ...ids: string[]): string => draw.pick([...ids, 'asOf']);

const chosen =
  (name: 'lowest' | 'highest' | 'firstRecorded') =>
  (draw: Random): Puzzle => {
    const type = draw.pick(
      name === 'firstRecorded'
        ? (['number', 'number', 'date', 'date-time', 'boolean', 'code', 'codes', 'text'] as const)
        : (['number', 'number', 'date', 'date-time'] as const),
    );
    const codes = type === 'code' ? { codes: 'materials' } : type === 'codes' ? { codes: 'symptoms' } : {};
    const operands = Array.from({ length: draw.integer(2, 3) }, (_, index): Fact => {
      const id = `in.n${index}`;
      return type === 'number' ? numberFact(draw, id, 'd', -2) : fact(id, { type, ...codes });
    });
    const from = { [name]: operands.map(({ id }) => id) } as unknown as Derivation;
    return {
      of: type === 'number' ? resultOf(draw, 'd', from, -2, 4) : fact('out.value', { type, ...codes, from }),
      operands,
    };
  };

/** Kinds whose operands are not facts of one value: what another rule set concludes, and lists. */
export const APART = ['conclusion', 'count', 'total', 'least', 'greatest', 'newest', 'longestRun'] as const;

/** A puzzle of each kind that reads facts. */
export const PUZZLES: Readonly<Record<Exclude<ScalarKind, 'conclusion'>, (draw: Random) => Puzzle>> = {
  elapsed: (draw) => {
    const operands = times(draw);
    const from = { elapsed: { from: either(draw, 'in.from'), to: either(draw, 'in.to', 'in.from') } };
    return { of: resultOf(draw, draw.pick(['h', 'min', 'd', 's']), from, -4, 40), operands };
  },
  calendarDays: (draw) => {
    const operands = [...times(draw), fact('in.day', { type: 'date' })];
    const from = {
      calendarDays: { from: either(draw, 'in.from', 'in.day'), to: either(draw, 'in.to', 'in.day') },
    };
    return { of: resultOf(draw, 'd', from, -4, 4), operands };
  },
  localHour: (draw) => ({
    of: resultOf(draw, 'h', { localHour: { at: either(draw, 'in.from') } }, 0, 24),
    operands: times(draw),
  }),
  difference: number(
    (draw, operands) => [
      {
        difference: draw.chance(0.5)
          ? [operands[0] ?? '', operands[1] ?? '']
          : [operands[1] ?? '', operands[0] ?? ''],
      },
      'mL',
    ],
    -2,
    [2, 2],
  ),
  sum: number((_draw, operands) => [{ sum: operands }, 'mL'], -2, [2, 3]),
  product: number((_draw, operands) => [{ product: operands }, 'mL.mL'], 0, [2, 3]),
  ratio: number((_draw, operands) => [{ ratio: operands }, '1'], 0, [2, 3]),
  lowest: chosen('lowest'),
  highest: chosen('highest'),
  firstRecorded: chosen('firstRecorded'),
  lookup: (draw) => {
    const [type, column, parts] = draw.pick([
      ['number', 'days', { unit: 'd', ...maybe(draw, { step: 5 }), ...maybe(draw, limitsOf(5, 20)) }],
      ['boolean', 'latex', {}],
      ['code', 'successor', { codes: 'materials' }],
      ['text', 'words', {}],
    ] as const);
    const from = { lookup: { table: 'dwell.longest', key: 'in.material', column } };
    return {
      of: fact('out.value', { type, ...parts, from }),
      operands: [fact('in.material', { type: 'code', codes: 'materials' })],
    };
  },
  band: (draw) => {
    const cuts = [draw.integer(-2, 1) + draw.pick([0, 0.3]), draw.integer(2, 4) + draw.pick([0, 0.3])];
    const codes = draw.pick([
      ['low', 'mid', 'high'],
      ['high', 'low', 'high'],
      ['low', 'low', 'mid'],
    ]);
    const atCut = draw.pick([
      {},
      { atCut: 'lower' },
      { atCut: 'upper' },
      { atCut: { parameter: 'choice.side' } },
    ] as const);
    const from = { band: { of: 'in.n0', cuts, codes, ...atCut } };
    return {
      of: fact('out.value', { type: 'code', codes: 'grades', from }),
      operands: [numberFact(draw, 'in.n0', 'mL', -4)],
    };
  },
  countCodes: (draw) => {
    const list = draw.chance(0.3)
      ? { parameter: 'choice.signs' }
      : draw.some(['fever', 'pain', 'rigors', 'delirium', 'fever'], 0.6);
    const from = { countCodes: { of: 'in.signs', in: list } };
    return {
      of: fact('out.value', { type: 'number', ...maybe(draw, { step: 2 }, 0.2), from }),
      operands: [fact('in.signs', { type: 'codes', codes: 'symptoms' })],
    };
  },
};

const MINUTES = [0, 1, 15, 30, 60, 90, 120, 600, 1440, 1530, 2880, 4335];

/** Values of an operand to try one by one. */
export function gridOf(of: Fact, codes: readonly string[], asOf: number): WitnessValue[] {
  switch (of.type) {
    case 'number': {
      const [low, high] = of.limits ?? [-5, 5];
      const step = of.step ?? 0.25;
      const multiples = Array.from(
        { length: Math.floor(high / step) - Math.ceil(low / step) + 1 },
        (_, index) => (Math.ceil(low / step) + index) * step,
      );
      return multiples;
    }
    case 'date-time':
      return MINUTES.map((minutes) => asOf - minutes * 60_000);
    case 'date':
      return Array.from({ length: 11 }, (_, index) => Math.floor(asOf / 86_400_000) - 5 + index);
    case 'boolean':
      return [true, false];
    case 'code':
      return [...codes];
    case 'list':
      return [];
    case 'codes':
      return Array.from({ length: 2 ** codes.length }, (_, bits) =>
        codes.filter((_code, index) => bits & (2 ** index)),
      );
    case 'text':
      return ['A1', 'B2'];
  }
}
