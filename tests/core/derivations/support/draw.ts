import type { Case, CodeList, Fact } from '@dwellset/core';
import { MOMENTS } from '../../../reference/generate/moments.ts';
import type { Random } from '../../../reference/generate/random.ts';

const HOUR = 3_600_000;

/** A case of the given facts: each known, known within bounds, known to be empty, refused or not supplied. */
export function caseOf(
  draw: Random,
  facts: readonly Fact[],
  codes: Readonly<Record<string, CodeList>>,
): Case {
  const [zone, at] = draw.pick(MOMENTS);
  const asOf = Date.parse(at) + draw.integer(-48, 48) * HOUR + draw.integer(0, 3_599) * 1000;
  const values = facts.flatMap((fact): [string, unknown][] => {
    if (fact.from) return [];
    const value = draw.weighted<() => unknown>([
      [6, () => known(draw, fact, codes, asOf)],
      [2, () => within(draw, fact, codes, asOf)],
      [1.5, () => null],
      [1, () => ({ absent: draw.pick(['not-performed', 'asked-unknown', 'masked', 'error']) })],
      [0.5, () => ({ value: { no: 'value of any type' } })],
      [1.5, () => undefined],
    ])();
    return value === undefined ? [] : [[fact.id, value]];
  });
  return {
    asOf: iso(asOf),
    timeZone: zone,
    ...(draw.chance(0.8) ? { recordedAt: iso(asOf) } : {}),
    facts: Object.fromEntries(values) as Case['facts'],
  };
}

const iso = (instant: number): string => new Date(instant).toISOString();
const listed = (fact: Fact, codes: Readonly<Record<string, CodeList>>) =>
  Object.keys(codes[fact.codes ?? ''] ?? {});

function known(draw: Random, fact: Fact, codes: Readonly<Record<string, CodeList>>, asOf: number): unknown {
  switch (fact.type) {
    case 'number':
      return { value: numberIn(draw, fact), ...(fact.unit ? { unit: fact.unit } : {}), confirmed: true };
    case 'boolean':
      return draw.chance(0.5);
    case 'code':
      return draw.pick(listed(fact, codes));
    case 'codes': {
      const yes = draw.some(listed(fact, codes));
      return { yes, no: listed(fact, codes).filter((code) => !yes.includes(code)) };
    }
    case 'date':
      return iso(asOf + draw.integer(-9, 9) * 24 * HOUR).slice(
        0,
        draw.chance(0.1) && fact.monthMeans ? 7 : 10,
      );
    case 'date-time':
      return iso(asOf - draw.integer(0, 72) * HOUR - draw.pick([0, 0, 1, 59_999, 1_234_567]));
    case 'text':
      return draw.pick(['A1', 'B2']);
    case 'list':
      return [];
  }
}

function within(draw: Random, fact: Fact, codes: Readonly<Record<string, CodeList>>, asOf: number): unknown {
  switch (fact.type) {
    case 'number':
      return { ...(known(draw, fact, codes, asOf) as object), comparator: draw.pick(['<', '<=', '>', '>=']) };
    case 'codes': {
      const [yes, rest] = [draw.some(listed(fact, codes), 0.3), draw.some(listed(fact, codes), 0.3)];
      return draw.chance(0.3) ? yes : { yes, no: rest.filter((code) => !yes.includes(code)) };
    }
    case 'date-time':
      return iso(asOf - draw.integer(0, 3) * 24 * HOUR).slice(0, 10);
    default:
      return known(draw, fact, codes, asOf);
  }
}

/** Often a limit, a zero or a value between two steps. */
function numberIn(draw: Random, fact: Fact): number {
  const [low, high] = fact.limits ?? [-20, 20];
  const step = fact.step ?? draw.pick([1, 0.1]);
  return draw.weighted<() => number>([
    [1, () => low],
    [1, () => high],
    [6, () => Number((Math.round((low + draw.next() * (high - low)) / step) * step).toFixed(4))],
    [1, () => low + draw.next() * (high - low)],
  ])();
}
