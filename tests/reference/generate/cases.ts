import type { Case, CaseValue, Fact } from '@dwellset/core';
import { numberNear } from './conditions.ts';
import { generateEntries } from './entries.ts';
import { earlier, isoDate, isoInstant } from './moments.ts';
import type { Random } from './random.ts';
import { type Generated, generateAttributes } from './releases.ts';
import { codesOf, GROUPS } from './vocabulary.ts';

/** Written out here, so that a reason the core forgets is missed. */
export const ABSENT = [
  'unknown',
  'asked-unknown',
  'temp-unknown',
  'not-asked',
  'asked-declined',
  'masked',
  'not-applicable',
  'unsupported',
  'as-text',
  'error',
  'not-a-number',
  'negative-infinity',
  'positive-infinity',
  'not-performed',
  'not-permitted',
  'not-needed',
] as const;

type Stated = { value: unknown; unit?: string; at?: string; comparator?: string; confirmed?: boolean };

/** A case that fits the rule sets: mostly filled in, with every way in which a value can fail to be known. */
export function generateCase(random: Random, { releases, around, zone }: Generated): Case {
  const asOf = around + random.pick([0, 0, 0, -90, 15, 720, 1440, -1440]) * 60_000;
  const facts = new Map(releases.flatMap((release) => release.facts.map((fact) => [fact.id, fact])));
  const known = random.pick([0.55, 0.75, 0.95]);
  const timeZone = random.chance(0.8) ? zone : random.pick(['Europe/London', 'UTC', 'Pacific/Auckland']);
  const values: [string, CaseValue][] = [];
  for (const fact of facts.values()) {
    if (fact.id.startsWith('option.') || (fact.from !== undefined && random.chance(0.93))) continue;
    const value = random.chance(known) ? stated(random, fact, asOf) : failing(random, fact, asOf);
    if (value !== undefined) values.push([fact.id, value as CaseValue]);
  }
  const hand = () => (random.chance(0.5) ? `item-${random.integer(0, 1)}` : generateAttributes(random));
  const choosing = releases.some((release) => release.shape === 'choice') && random.chance(0.4);
  return {
    asOf: isoInstant(random, asOf),
    timeZone,
    ...(random.chance(0.85)
      ? { recordedAt: isoInstant(random, random.chance(0.8) ? asOf : earlier(random, asOf)) }
      : {}),
    ...(random.chance(0.3) ? { searched: random.some(GROUPS) } : {}),
    facts: Object.fromEntries(values),
    ...(choosing ? { chosen: { catheter: hand() } } : {}),
  };
}

/** A value that can be used, fresh enough most of the time. */
function stated(random: Random, fact: Fact, asOf: number): unknown {
  const value = usable(random, fact, asOf);
  if (fact.type === 'list' || fact.staleAfter === undefined || random.chance(0.75)) return value;
  return {
    ...asStated(fact, value),
    at: isoInstant(random, random.chance(0.7) ? asOf : earlier(random, asOf)),
  };
}

function asStated(fact: Fact, value: unknown): Stated {
  const already = typeof value === 'object' && value !== null && 'value' in value;
  return already
    ? (value as Stated)
    : { value, ...(fact.type === 'number' && fact.unit ? { unit: fact.unit } : {}) };
}

function usable(random: Random, fact: Fact, asOf: number): unknown {
  switch (fact.type) {
    case 'boolean':
      return random.chance(0.6);
    case 'text':
      return random.pick(['Nurse A', '', 'lot 7']);
    case 'code':
      return random.pick(codesOf(fact.codes as string));
    case 'codes': {
      const codes = codesOf(fact.codes as string);
      if (random.chance(0.6)) return random.some(codes);
      const yes = random.some(codes);
      return { yes, no: codes.filter((code) => !yes.includes(code)) };
    }
    case 'number': {
      if (fact.unit === '1' && random.chance(0.5))
        return numberNear(random, { ...fact, ...(fact.usual ? { limits: fact.usual } : {}) });
      const value = numberNear(random, {
        ...fact,
        ...(fact.usual && random.chance(0.8) ? { limits: fact.usual } : {}),
      });
      return {
        value: value + (random.chance(0.1) ? 0.04 : 0),
        unit: fact.unit,
        ...(random.chance(0.3) ? { confirmed: true } : {}),
      };
    }
    case 'list':
      return generateEntries(random, fact, asOf);
    case 'date':
      if (fact.monthMeans && random.chance(0.2)) return isoDate(earlier(random, asOf)).slice(0, 7);
      return isoDate(earlier(random, asOf));
    case 'date-time':
      return isoInstant(random, earlier(random, asOf));
  }
}

/** A value that is missing, refused, too old or known within bounds only. */
function failing(random: Random, fact: Fact, asOf: number): unknown {
  if (fact.type === 'list') return random.pick([undefined, null, { absent: random.pick(ABSENT) }]);
  const value = asStated(fact, usable(random, fact, asOf));
  const at = (when: number) => ({ ...value, at: isoInstant(random, when) });
  const ifNumber = (weight: number) => (fact.type === 'number' ? weight : 0);
  return random.weighted<() => unknown>([
    [3, () => undefined],
    [3, () => null],
    [5, () => ({ absent: random.pick(ABSENT) })],
    [fact.staleAfter ? 2 : 0, () => at(asOf - 40 * 86_400_000)],
    [fact.staleAfter ? 1 : 0, () => value],
    [1, () => at(asOf + 60_000)],
    [
      1,
      () =>
        fact.type === 'text' || fact.type.startsWith('date')
          ? 7
          : random.pick(['no-such-code', '2026-13-01']),
    ],
    [ifNumber(1.5), () => ({ ...value, unit: 'furlong' })],
    [ifNumber(1), () => value.value],
    [fact.limits ? 1.5 : 0, () => ({ ...value, value: random.pick([-1, 5000]) })],
    [fact.usual ? 1.5 : 0, () => ({ value: fact.limits?.[1] ?? 20, unit: fact.unit })],
    [ifNumber(3), () => ({ ...value, comparator: random.pick(['<', '<=', '>', '>=']) })],
    [fact.type === 'date-time' ? 4 : 0, () => isoDate(earlier(random, asOf))],
    [fact.type === 'date-time' ? 1 : 0, () => isoInstant(random, asOf + 3_600_000)],
    [fact.type === 'date-time' ? 1 : 0, () => '2026-11-25T09:00:00'],
    [fact.type === 'codes' ? 3 : 0, () => halfAnswered(random, fact)],
    [
      fact.type === 'codes' ? 1 : 0,
      () => ({ yes: codesOf(fact.codes as string), no: codesOf(fact.codes as string) }),
    ],
  ])();
}

function halfAnswered(random: Random, fact: Fact): unknown {
  const [first, ...others] = codesOf(fact.codes as string) as [string, ...string[]];
  return random.pick<unknown>([
    { yes: [first] },
    { no: [first] },
    { yes: random.some(others, 0.3), no: [first] },
  ]);
}
