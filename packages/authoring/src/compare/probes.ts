import type { Case, CaseValue, Constant, Fact, Release } from '@dwellset/core';
import { type Random, random } from '../random.ts';
import { closureOf } from './closure.ts';
import type { Seed, Side } from './shape.ts';

/** What the probes of one rule vary: the facts it reads on either side, and the figures that they are held against. */
interface Target {
  readonly facts: ReadonlyMap<string, { readonly fact: Fact; readonly constants: readonly Constant[] }>;
  readonly codes: Release['codes'];
  readonly derived: ReadonlySet<string>;
}

const AS_OF = '2026-03-02T10:00:00Z';

/**
 * Cases around the places where a rule turns: every fact it reads at, just below and just above the figures that
 * either side holds it against. Half of them begin from a seed, so that what else it needs is there.
 */
export function* probesOf(
  rule: string,
  sides: readonly (Side | undefined)[],
  seeds: readonly Seed[],
  most: number,
): Generator<Seed> {
  const target = targetOf(rule, sides);
  const draw = random(seedOf(rule));
  const ids = [...target.facts.keys()];
  if (ids.length === 0) return;
  const own = seeds.filter(({ case: patient }) => ids.some((id) => id in patient.facts));
  for (let index = 0; index < most; index++) {
    const begun = own.length > 0 && draw.chance(0.5) ? draw.pick(own) : undefined;
    const patient: Case = begun?.case ?? {
      asOf: AS_OF,
      timeZone: 'Europe/London',
      recordedAt: AS_OF,
      facts: {},
    };
    const varied = begun ? ids.filter(() => draw.chance(2 / ids.length)) : ids;
    yield { from: 'probe', name: `${rule}, probe ${index + 1}`, case: vary(patient, varied, target, draw) };
  }
}

/** The same probes for the same rule, whatever else is compared. */
const seedOf = (text: string): number =>
  [...text].reduce((sum, c) => Math.imul(sum, 31) + c.charCodeAt(0), 7);

function targetOf(rule: string, sides: readonly (Side | undefined)[]): Target {
  const facts = new Map<string, { fact: Fact; constants: Constant[] }>();
  let codes: Release['codes'] = {};
  for (const release of sides.flatMap((side) => side ?? [])) {
    codes = { ...codes, ...release.codes };
    const found = release.rules.find(({ id }) => id === rule);
    // Of a set that is read along, every rule may move the conclusion.
    const read = found ? [found] : sides.some((side) => side?.[0] === release) ? [] : release.rules;
    for (const one of read) {
      for (const [id, constants] of closureOf(release, one).facts) {
        const fact = release.facts.find((other) => other.id === id);
        if (fact === undefined || id.startsWith('option.')) continue;
        const known = facts.get(id);
        if (known) known.constants.push(...constants);
        else facts.set(id, { fact, constants: [...constants] });
      }
    }
  }
  const derived = new Set([...facts].filter(([, { fact }]) => fact.from !== undefined).map(([id]) => id));
  return { facts, codes, derived };
}

function vary(patient: Case, ids: readonly string[], target: Target, draw: Random): Case {
  const facts: Record<string, CaseValue> = { ...patient.facts };
  const asOf = Date.parse(patient.asOf);
  for (const id of ids) {
    const known = target.facts.get(id);
    if (known === undefined) continue;
    // A derived fact is mostly left to be computed; now and then it is supplied in place of what it is computed from.
    if (target.derived.has(id) && !draw.chance(0.4)) {
      delete facts[id];
      continue;
    }
    if (target.derived.has(id)) {
      const inputs = JSON.stringify(known.fact.from);
      for (const other of target.facts.keys()) if (inputs.includes(`"${other}"`)) delete facts[other];
    }
    if (draw.chance(0.08)) delete facts[id];
    else if (draw.chance(0.04)) facts[id] = null;
    else facts[id] = drawnValue(known.fact, known.constants, target, asOf, draw);
  }
  return { ...patient, facts };
}

type Described = Pick<Fact, 'type' | 'unit' | 'step' | 'limits' | 'codes'> & Pick<Fact, 'item'>;

function drawnValue(
  fact: Described,
  constants: readonly Constant[],
  target: Target,
  asOf: number,
  draw: Random,
): CaseValue {
  switch (fact.type) {
    case 'boolean':
      return draw.chance(0.5);
    case 'number':
      return numberOf(fact, constants, draw);
    case 'code':
      return draw.pick(codesOf(fact, constants, target, draw));
    case 'codes': {
      const codes = codesOf(fact, constants, target, draw);
      return draw.chance(0.2) ? [] : codes.filter((_, index) => index === 0 || draw.chance(0.2));
    }
    case 'date':
    case 'date-time': {
      const instant = instantOf(constants, asOf, draw);
      return fact.type === 'date' ? instant.slice(0, 10) : instant;
    }
    case 'text':
      return 'as written';
    case 'list':
      return Array.from({ length: draw.integer(0, 3) }, () =>
        Object.fromEntries(
          Object.entries(fact.item ?? {})
            .filter(([, field]) => field.from === undefined)
            .map(([name, field]) => [name, drawnValue(field, constants, target, asOf, draw)] as const),
        ),
      );
  }
}

function codesOf(
  { codes }: Described,
  constants: readonly Constant[],
  target: Target,
  draw: Random,
): string[] {
  const named = constants.flat().filter((value): value is string => typeof value === 'string');
  const all = Object.keys(target.codes[codes ?? ''] ?? {});
  const first = named.length > 0 && draw.chance(0.8) ? named : all.length > 0 ? all : ['none'];
  const lead = draw.pick(first);
  return [lead, ...all.filter((code) => code !== lead)].slice(0, draw.chance(0.8) ? 1 : all.length + 1);
}

function numberOf(
  { unit, step = 1, limits = [0, 1000] }: Described,
  constants: readonly Constant[],
  draw: Random,
) {
  const figures = constants.filter((value): value is number => typeof value === 'number');
  const near = figures.length > 0 && draw.chance(0.85);
  const raw = near
    ? draw.pick(figures) + draw.pick([-step, 0, 0, step])
    : limits[0] + step * draw.integer(0, Math.floor((limits[1] - limits[0]) / step));
  const value = Number(Math.min(limits[1], Math.max(limits[0], raw)).toPrecision(12));
  return unit === undefined || unit === '1' ? value : { value, unit };
}

const HOUR = 3_600_000;

/** Figures against which a length of time is held may be minutes, hours or days. */
function instantOf(constants: readonly Constant[], asOf: number, draw: Random): string {
  const figures = constants.filter((value): value is number => typeof value === 'number');
  const back =
    figures.length > 0 && draw.chance(0.85)
      ? draw.pick(figures) * draw.pick([HOUR / 60, HOUR, 24 * HOUR]) + draw.pick([-60_000, 0, 60_000])
      : draw.integer(0, 500) * HOUR;
  return new Date(asOf - Math.min(Math.max(back, 0), 20_000 * HOUR)).toISOString();
}
