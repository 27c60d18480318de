import type { CellValue, Derivation, Fact, Operand } from '@dwellset/core';
import { localDay, localHour, UNIT_MS } from './dates.ts';
import { anything, exact, type Known, toStep } from './known.ts';
import { aggregate, isAggregate } from './lists.ts';
import { all, any, type Truth } from './truth.ts';
import type { World } from './world.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

export function derive(fact: Fact, from: Derivation, world: World): Known {
  if ('elapsed' in from) {
    const { low, high } = minus(range(from.elapsed.to, world), range(from.elapsed.from, world));
    const unit = UNIT_MS[fact.unit as string] as number;
    return finish(fact, world, Object.values(from.elapsed), { low: low / unit, high: high / unit });
  }
  if ('calendarDays' in from) {
    const days = (id: string): Range => {
      const { low, high } = range(id, world);
      if (id !== 'asOf' && world.fact(id).type === 'date') return { low, high };
      return { low: localDay(low, world.case.timeZone), high: localDay(high, world.case.timeZone) };
    };
    const { from: start, to: end } = from.calendarDays;
    return finish(fact, world, [start, end], minus(days(end), days(start)));
  }
  if ('localHour' in from) {
    const { low, high } = range(from.localHour.at, world);
    const hour = low === high ? localHour(low, world.case.timeZone) : undefined;
    return finish(fact, world, [from.localHour.at], { low: hour ?? 0, high: hour ?? 24 });
  }
  if ('difference' in from) {
    const [one, other] = from.difference;
    return finish(fact, world, from.difference, minus(range(one, world), range(other, world)));
  }
  if ('sum' in from) {
    const parts = from.sum.map((operand) => range(operand, world));
    const plus = (a: Range, b: Range) => ({ low: a.low + b.low, high: a.high + b.high });
    return finish(fact, world, from.sum, parts.reduce(plus));
  }
  if ('product' in from) {
    const times = (a: number, b: number) => (a === 0 || b === 0 ? 0 : a * b);
    const parts = from.product.map((operand) => notNegative(range(operand, world)));
    const product = parts.reduce((a, b) => ({ low: times(a.low, b.low), high: times(a.high, b.high) }));
    return finish(fact, world, from.product, product);
  }
  if ('ratio' in from) {
    const parts = from.ratio.map((operand) => notNegative(range(operand, world)));
    return finish(fact, world, from.ratio, parts.reduce(over));
  }
  if ('lowest' in from) return extreme(fact, world, from.lowest, Math.min);
  if ('highest' in from) return extreme(fact, world, from.highest, Math.max);
  if ('firstRecorded' in from) return firstRecorded(fact, world, from.firstRecorded);
  if ('lookup' in from) return lookup(fact, world, from.lookup);
  if ('band' in from) {
    const { of, cuts, codes, atCut = 'upper' } = from.band;
    const side = typeof atCut === 'string' ? atCut : world.parameter(atCut.parameter);
    const bandOf = (value: number) =>
      cuts.filter((cut) => (side === 'upper' ? value >= cut : value > cut)).length;
    const { low, high } = range(of, world);
    return finish(fact, world, [of], { may: codes.slice(bandOf(low), bandOf(high) + 1) });
  }
  if ('conclusion' in from) return concluded(fact, world, from.conclusion);
  if (isAggregate(from)) return aggregate(fact, from, world);
  const { of, in: list } = from.countCodes;
  const wanted = 'parameter' in list ? (world.parameter(list.parameter) as readonly string[]) : list;
  const answers = Object.entries(world.know(of).answers).filter(([code]) => wanted.includes(code));
  const count = (answer: Truth) => answers.filter(([, given]) => given === answer).length;
  return finish(fact, world, [of], { low: count('true'), high: count('true') + count('unknown') });
}

function range(operand: Operand, world: World): Range {
  if (operand === 'asOf') return { low: world.asOf, high: world.asOf };
  if (typeof operand === 'string') return world.know(operand);
  const value = 'parameter' in operand ? (world.parameter(operand.parameter) as number) : operand.value;
  return { low: value, high: value };
}

const minus = (a: Range, b: Range): Range => ({ low: a.low - b.high, high: a.high - b.low });
const notNegative = ({ low, high }: Range): Range => ({ low: Math.max(0, low), high: Math.max(0, high) });

function over(a: Range, b: Range): Range {
  if (b.high === 0) return { low: 0, high: Infinity };
  return { low: a.low / b.high, high: b.low === 0 ? Infinity : a.high / b.low };
}

/** Rounds, clips and names the cause; a fact whose every input is known to have no value has none either. */
export function finish(
  fact: Fact,
  world: World,
  operands: readonly Operand[],
  bounds: Partial<Known>,
  recorded?: Truth,
): Known {
  const inputs = operands.filter((operand) => typeof operand === 'string' && operand !== 'asOf') as string[];
  const known = inputs.map((id) => world.know(id));
  const domain = (cause: string, truth: Truth) =>
    anything(fact, world.codes(fact.codes), world.asOf, cause, truth);
  const inRecord = recorded ?? all(known.map((input) => input.recorded));
  if (inputs.length > 0 && known.every((input) => input.none))
    return { ...domain('no-entry', 'false'), none: true, inputs };
  let result: Known = { ...domain('derived', inRecord), ...bounds, inputs };
  if (fact.type === 'number') {
    const [lowest, highest] = fact.limits ?? [-Infinity, Infinity];
    const low = toStep(fact, result.low);
    const high = toStep(fact, result.high);
    // Of no entries the least is more, and the greatest less, than any number.
    const mayBeEmpty = fact.from && ('least' in fact.from || 'greatest' in fact.from);
    const beyond = (end: number) => mayBeEmpty && !Number.isFinite(end);
    if ((high < lowest && !beyond(high)) || (low > highest && !beyond(low)))
      return { ...domain('impossible', 'unknown'), inputs };
    result = {
      ...result,
      low: beyond(low) ? low : Math.max(low, lowest),
      high: beyond(high) ? high : Math.min(high, highest),
    };
  }
  if (!exact(fact, result)) return result;
  const { cause: _, ...settled } = result;
  return settled;
}

function extreme(
  fact: Fact,
  world: World,
  ids: readonly string[],
  pick: (...ends: number[]) => number,
): Known {
  const there = ids.map((id) => world.know(id)).filter((known) => !known.none);
  const low = pick(...there.map((known) => known.low));
  const high = pick(...there.map((known) => known.high));
  return finish(fact, world, ids, { low, high }, all(there.map((known) => known.recorded)));
}

function firstRecorded(fact: Fact, world: World, ids: readonly string[]): Known {
  const domain = anything(fact, world.codes(fact.codes), world.asOf, 'no-entry', 'false');
  const from = (rest: readonly string[]): Known => {
    const [id, ...others] = rest;
    if (id === undefined) return { ...domain, none: true };
    const known = world.know(id);
    if (known.recorded === 'true') return known;
    const later = from(others);
    if (known.recorded === 'false') return later;
    return later.none ? known : hull([known, later]);
  };
  const { none, low, high, may, answers } = from(ids);
  if (none) return { ...domain, none, inputs: ids };
  const recorded = any(ids.map((id) => world.know(id).recorded));
  const { none: _, ...result } = finish(fact, world, ids, { low, high, may, answers }, recorded);
  return { ...result, none: false };
}

export function hull(parts: readonly [Known, ...Known[]]): Known {
  const answer = (code: string): Truth => {
    const given = new Set(parts.map((part) => part.answers[code] as Truth));
    return given.size === 1 ? ([...given][0] as Truth) : 'unknown';
  };
  return {
    ...parts[0],
    none: false,
    low: Math.min(...parts.map((part) => part.low)),
    high: Math.max(...parts.map((part) => part.high)),
    may: [...new Set(parts.flatMap((part) => part.may))],
    answers: Object.fromEntries(Object.keys(parts[0].answers).map((code) => [code, answer(code)])),
  };
}

/** Where no conclusion stands yet, none may come: the open ones are not all that is possible. */
function concluded(fact: Fact, world: World, set: string): Known {
  const { id, settled, possible, waitsFor } = world.conclusion(set);
  const domain = anything(fact, world.codes(fact.codes), world.asOf, 'no-entry', 'false');
  if (possible.length === 0) return { ...domain, none: true, inputs: waitsFor };
  const may = id === undefined ? domain.may : possible;
  const { cause: _, ...known } = {
    ...domain,
    may,
    recorded: settled ? 'true' : 'unknown',
    inputs: waitsFor,
  } as const;
  return exact(fact, known) ? known : { ...known, cause: 'derived' };
}

function lookup(fact: Fact, world: World, from: { table: string; key: string; column: string }): Known {
  const table = world.table(from.table);
  const key = world.know(from.key);
  const cell = (code: string): CellValue =>
    (Object.hasOwn(table.rows, code)
      ? table.rows[code]?.[from.column]?.value
      : table.otherwise?.[from.column]) ?? null;
  const cells = key.may.map(cell);
  const entries = cells.filter((value) => value !== null);
  const found: Truth = entries.length === cells.length ? 'true' : entries.length === 0 ? 'false' : 'unknown';
  const recorded = key.recorded === 'true' ? found : key.recorded;
  if (entries.length === 0)
    return {
      ...anything(fact, world.codes(fact.codes), world.asOf, 'no-entry', 'false'),
      none: true,
      inputs: [from.key],
    };
  if (found === 'unknown') return finish(fact, world, [from.key], {}, recorded);
  const numbers = fact.type === 'number' ? (entries as number[]) : [];
  const bounds =
    fact.type === 'number'
      ? { low: Math.min(...numbers), high: Math.max(...numbers) }
      : { may: [...new Set(entries.map(String))] };
  return finish(fact, world, [from.key], bounds, recorded);
}
