import type { Derivation, Fact, Operand } from '@dwellset/core';
import { makeFact } from '../release.ts';
import type { Random } from './random.ts';
import { CODES, codesOf } from './vocabulary.ts';

/** A fact of a random kind of derivation, or nothing where the facts so far have no inputs for it. */
export function deriveFact(random: Random, id: string, facts: readonly Fact[]): Fact | undefined {
  const ids = (keep: (fact: Fact) => boolean) => facts.filter(keep).map((fact) => fact.id);
  const fromZero = (unit: string) =>
    ids((f) => f.type === 'number' && f.unit === unit && f.limits?.[0] === 0);
  const instants = ids((fact) => fact.type === 'date-time');
  const days = [...instants, ...ids((fact) => fact.type === 'date')];
  const coded = facts.filter(
    (fact) => fact.type === 'code' && ['answers', 'materials', 'reasons'].includes(fact.codes ?? ''),
  );
  const several = facts.filter((fact) => fact.type === 'codes');
  const like = facts.length === 0 ? undefined : random.pick(facts);
  const peers = ids((fact) => like !== undefined && sameKind(fact, like));
  const [volumes, hours, shares] = ['mL', 'h', '1'].map(fromZero) as [string[], string[], string[]];
  const volumeOr = () =>
    random.weighted<Operand>([
      [5, random.pick(volumes)],
      [1, { parameter: 'choice.volume' }],
      [1, { value: random.integer(1, 5), unit: 'mL' }],
    ]);
  const endOr = (own: readonly string[]) => (random.chance(0.6) ? 'asOf' : random.pick(own));
  const few = (least: number) => Array.from({ length: random.integer(least, 3) }, () => random.pick(peers));
  const step = random.pick([0.1, 0.5, 1]);
  const number = (unit: string, from: Derivation, limits?: readonly [number, number], by = step) =>
    makeFact(id, {
      type: 'number',
      unit,
      step: by,
      ...(limits && random.chance(0.8) ? { limits } : {}),
      from,
    });
  const alike = (from: Derivation) => {
    const { type, unit, codes } = like as Fact;
    return makeFact(id, { type, ...(unit ? { unit } : {}), ...(codes ? { codes } : {}), from });
  };

  const measured = like !== undefined && ['number', 'date', 'date-time'].includes(like.type);
  const kinds: readonly (readonly [possible: boolean, make: () => Fact])[] = [
    [
      instants.length > 0,
      () => number('h', { elapsed: { from: random.pick(instants), to: endOr(instants) } }, [0, 72]),
    ],
    [
      instants.length > 0,
      () => number('d', { elapsed: { from: random.pick(instants), to: 'asOf' } }, [0, 40]),
    ],
    [
      days.length > 0,
      () => number('d', { calendarDays: { from: random.pick(days), to: endOr(days) } }, [0, 40], 1),
    ],
    [instants.length > 0, () => number('h', { localHour: { at: endOr(instants) } }, [0, 24])],
    [volumes.length > 0, () => number('mL', { difference: [random.pick(volumes), volumeOr()] })],
    [
      volumes.length > 0,
      () => number('mL', { sum: [random.pick(volumes), volumeOr(), volumeOr()] }, [0, 30]),
    ],
    [
      volumes.length > 0 && shares.length > 0,
      () => number('mL', { product: [random.pick(volumes), random.pick(shares)] }, [0, 20]),
    ],
    [
      volumes.length > 0 && hours.length > 0,
      () => number('mL/h', { ratio: [random.pick(volumes), random.pick(hours)] }, [0, 50]),
    ],
    [volumes.length > 0, () => number('1', { ratio: [random.pick(volumes), volumeOr()] }, [0, 10])],
    [
      volumes.length > 0,
      () => number('mL/h', { ratio: [random.pick(volumes), { value: random.integer(1, 4), unit: 'h' }] }),
    ],
    [measured, () => alike({ lowest: few(2) })],
    [measured, () => alike({ highest: few(2) })],
    [like !== undefined && like.type !== 'text', () => alike({ firstRecorded: few(2) })],
    [like !== undefined && like.type !== 'text', () => alike({ firstRecorded: few(2) })],
    [like !== undefined && like.type !== 'text', () => alike({ firstRecorded: few(2) })],
    [coded.length > 0, () => lookup(random, id, random.pick(coded))],
    [coded.length > 0, () => lookup(random, id, random.pick(coded))],
    [volumes.length > 0, () => band(random, id, random.pick(volumes))],
    [several.length > 0, () => countCodes(random, id, random.pick(several))],
  ];
  const [possible, make] = random.pick(kinds);
  return possible ? make() : undefined;
}

function sameKind(one: Fact, other: Fact): boolean {
  return one.type === other.type && one.unit === other.unit && one.codes === other.codes;
}

export function lookup(random: Random, id: string, key: Fact): Fact {
  const column = random.pick(['days', 'days', 'flag', 'reason']);
  const from = { lookup: { table: `table.${key.codes}`, key: key.id, column } };
  if (column === 'flag') return makeFact(id, { type: 'boolean', from });
  if (column === 'reason') return makeFact(id, { type: 'code', codes: 'reasons', from });
  return makeFact(id, {
    type: 'number',
    unit: 'mL',
    step: 1,
    ...(random.chance(0.5) ? { limits: [0, 12] } : {}),
    from,
  });
}

function band(random: Random, id: string, of: string): Fact {
  const atCut = random.pick([
    {},
    { atCut: 'lower' },
    { atCut: 'upper' },
    { atCut: { parameter: 'choice.side' } },
  ] as const);
  const cuts = [random.integer(1, 5), random.integer(6, 12)];
  return makeFact(id, {
    type: 'code',
    codes: 'bands',
    from: { band: { of, cuts, codes: Object.keys(CODES.bands ?? {}), ...atCut } },
  });
}

function countCodes(random: Random, id: string, of: Fact): Fact {
  const byChoice = of.codes === 'materials' && random.chance(0.5);
  const list = byChoice ? { parameter: 'choice.materials' } : random.some(codesOf(of.codes as string), 0.7);
  return makeFact(id, { type: 'number', unit: '1', step: 1, from: { countCodes: { of: of.id, in: list } } });
}
