import type { Case, CaseValue } from '@dwellset/core';
import type { WardDocument, WardDraw, WardStage } from '../documents/ward.ts';
import { type Random, random } from '../random.ts';

/** One invented patient at one round. */
export interface WardDay {
  /** From 1, in the order of the document's draws. */
  readonly patient: number;
  /** Rounds this patient has been seen on, this one included. */
  readonly day: number;
  readonly case: Case;
}

/** What stands in a chart: when it was so, and from when on it can be read. */
interface Entry {
  readonly fact: string;
  readonly value: CaseValue;
  readonly at: number;
  readonly charted: number;
}

interface Due {
  readonly stage: WardStage;
  readonly at: number;
}

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
/** A stage that repeats every minute must not run for ever. */
const MOST_EVENTS = 2000;

/**
 * The days of every patient of an invented ward, as the chart shows them at each round. Pure: the same document
 * and seed give the same days, and a patient's days do not depend on how many others there are.
 */
export function simulateWard(ward: WardDocument, seed: number): WardDay[] {
  return Array.from({ length: ward.patients }, (_, index) =>
    daysOf(ward, index + 1, random(Math.imul(seed, 0x9e37) + index * 7919 + 1)),
  ).flat();
}

function daysOf(ward: WardDocument, patient: number, draw: Random): WardDay[] {
  const first = Date.parse(ward.start);
  // The admission lies before the round it is first seen on.
  const admitted = first + Math.floor(draw.next() * ward.arriveWithinDays * 24 * 60) * 60_000;
  const leaves = admitted + between(ward.stayDays, draw) * DAY;
  const entries = eventsOf(ward, admitted, leaves, draw);
  const days: WardDay[] = [];
  const begin = first + Math.ceil((admitted - first) / DAY) * DAY;
  for (let round = begin; round <= leaves; round += DAY) {
    days.push({ patient, day: days.length + 1, case: chartAt(ward, entries, round) });
  }
  return days;
}

function eventsOf(ward: WardDocument, admitted: number, leaves: number, draw: Random): Entry[] {
  const entries: Entry[] = [];
  const truth = new Map<string, CaseValue>();
  const happened = new Set<string>();
  const due: Due[] = [];
  const schedule = (after: string | undefined, from: number): void => {
    for (const stage of ward.stages) {
      if (stage.after !== after || !draw.chance(stage.chance ?? 1)) continue;
      due.push({ stage, at: from + between(stage.hours, draw) * HOUR });
    }
  };
  schedule(undefined, admitted);
  for (let count = 0; count < MOST_EVENTS; count++) {
    const next = earliest(due);
    if (next === undefined || next.at > leaves) break;
    due.splice(due.indexOf(next), 1);
    const { stage, at } = next;
    const { repeat } = stage;
    if (repeat?.until !== undefined && happened.has(repeat.until)) continue;
    if (Object.entries(stage.only ?? {}).every(([fact, value]) => truth.get(fact) === value)) {
      happen(stage, at, entries, truth, draw);
      if (!happened.has(stage.id) || !repeat) schedule(stage.id, at);
      happened.add(stage.id);
    }
    if (repeat) due.push({ stage, at: at + Math.max(between(repeat.hours, draw), 1 / 60) * HOUR });
  }
  return entries;
}

const earliest = (due: readonly Due[]): Due | undefined =>
  due.reduce<Due | undefined>(
    (best, one) => (best === undefined || one.at < best.at ? one : best),
    undefined,
  );

function happen(stage: WardStage, at: number, entries: Entry[], truth: Map<string, CaseValue>, draw: Random) {
  const written = draw.chance(stage.charted ?? 1);
  const charted = at + (stage.lateHours ? between(stage.lateHours, draw) * HOUR : 0);
  const note = (fact: string, value: CaseValue, isCharted: boolean): void => {
    truth.set(fact, value);
    if (written && isCharted) entries.push({ fact, value, at, charted });
  };
  for (const fact of stage.instant ?? []) note(fact, isoMinute(at), true);
  for (const [fact, one] of Object.entries(stage.facts ?? {})) {
    const value = drawnValue(one, draw);
    note(fact, value, draw.chance(one.charted ?? 1));
  }
}

function drawnValue({ oneOf, between: ends, step = 1, unit }: WardDraw, draw: Random): CaseValue {
  if (oneOf) return draw.weighted(oneOf).value as CaseValue;
  const [low, high] = ends ?? [0, 0];
  const value = Number((low + step * draw.integer(0, Math.floor((high - low) / step))).toPrecision(12));
  return unit === undefined ? value : { value, unit };
}

const between = ([low, high]: readonly [number, number], draw: Random): number =>
  low + draw.next() * (high - low);

/** Charts are written to the minute. */
const isoMinute = (at: number): string => new Date(Math.floor(at / 60_000) * 60_000).toISOString();

/** What can be read at a round: of each fact the newest of what is charted by then. */
function chartAt(ward: WardDocument, entries: readonly Entry[], round: number): Case {
  const newest = new Map<string, Entry>();
  for (const entry of entries) {
    const known = newest.get(entry.fact);
    if (entry.charted <= round && (known === undefined || known.at <= entry.at))
      newest.set(entry.fact, entry);
  }
  const facts = [...newest].map(([fact, { value, at }]) => [fact, stated(value, at)] as const);
  return {
    asOf: new Date(round).toISOString(),
    timeZone: ward.timeZone,
    facts: Object.fromEntries(facts.sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

/** Lists, absences and what carries its own time stay as they are. */
function stated(value: CaseValue, at: number): CaseValue {
  const when = isoMinute(at);
  if (value === null) return value;
  if (typeof value !== 'object' || (Array.isArray(value) && value.every((one) => typeof one === 'string')))
    return { value: value as string, at: when };
  if ('value' in value && !('at' in value)) return { ...value, at: when };
  return value;
}
