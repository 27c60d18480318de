import type { Fact } from '@dwellset/core';
import { earlier, isoDate, isoInstant } from './moments.ts';
import type { Random } from './random.ts';
import { codesOf } from './vocabulary.ts';

type Entry = Record<string, unknown>;

const HOUR = 3_600_000;

/** A chart as wards keep it: hour by hour, with gaps, overlaps and fields that cannot be read. */
export function generateEntries(random: Random, list: Fact, asOf: number): unknown {
  const entries = list.kind === 'things' ? things(random, asOf) : charted(random, list, asOf);
  const inOrder = random.chance(0.7) ? entries : shuffled(random, entries);
  return random.weighted<() => unknown>([
    [12, () => inOrder],
    [1.5, () => ({ items: inOrder })],
    [2, () => ({ items: inOrder, complete: false })],
    [1, () => []],
    [0.3, () => ({ items: [], complete: false })],
    [0.3, () => 'twice a day'],
    [0.3, () => [...inOrder, { foreign: 1 }]],
  ])();
}

function shuffled(random: Random, entries: readonly Entry[]): Entry[] {
  return entries
    .map((entry) => ({ entry, place: random.next() }))
    .sort((one, other) => one.place - other.place)
    .map(({ entry }) => entry);
}

/** Entries of an hour each up to the moment of the case or to some hours before. */
function charted(random: Random, list: Fact, asOf: number): Entry[] {
  const end = asOf - random.pick([0, 0, 0, 0.25, 1, 3, 30]) * HOUR;
  const length = random.pick([1, 1, 1, 2]) * HOUR;
  const tidy = random.chance(0.4);
  const entries: Entry[] = [];
  for (let index = random.integer(1, 5); index > 0; index--) {
    if (!tidy && random.chance(0.12)) continue;
    const [from, to] = [end - index * length, end - (index - 1) * length];
    const early = !tidy && random.chance(0.1) ? from - HOUR / 2 : from;
    const fields: Entry =
      list.kind === 'events'
        ? {
            at: isoInstant(random, to),
            ...quantity(random, tidy),
            material: random.pick(codesOf('materials')),
          }
        : { from: isoInstant(random, early), to: isoInstant(random, to), ...quantity(random, tidy) };
    if (list.kind === 'events') fields.by = random.pick(['doctor', 'nurse']);
    else fields.clear = random.chance(0.7);
    entries.push(tidy ? fields : spoilt(random, fields, asOf));
  }
  return entries;
}

function things(random: Random, asOf: number): Entry[] {
  return Array.from({ length: random.integer(1, 4) }, () => {
    const day = isoDate(
      random.chance(0.5) ? asOf + random.integer(0, 40) * 24 * HOUR : earlier(random, asOf),
    );
    const thing: Entry = {
      item: random.pick(['catheter', 'gel', 'water']),
      'use-by': random.chance(0.2) ? day.slice(0, 7) : day,
      intact: random.chance(0.8),
      ...quantity(random, false),
    };
    return random.chance(0.7) ? thing : spoilt(random, thing, asOf);
  });
}

function quantity(random: Random, tidy: boolean): Entry {
  const value = random.integer(0, 14);
  const volume = random.weighted<unknown>([
    [tidy ? 40 : 12, { value, unit: 'mL' }],
    [1, null],
    [0.7, value],
    [0.7, { value, unit: 'furlong' }],
    [0.7, { value: value + 30, unit: 'mL' }],
    [0.7, { value, unit: 'mL', comparator: random.pick(['<', '>=']) }],
    [0.5, { absent: 'not-performed' }],
  ]);
  return { volume };
}

/** An entry in which one field is missing, empty, ahead of time, a day alone, or not what it should be. */
function spoilt(random: Random, entry: Entry, asOf: number): Entry {
  const field = random.pick(Object.keys(entry));
  const { [field]: value, ...rest } = entry;
  return random.weighted<() => Entry>([
    [8, () => entry],
    [1, () => rest],
    [1, () => ({ ...rest, [field]: null })],
    [0.5, () => ({ ...rest, [field]: ['?'] })],
    [
      0.7,
      () => (/^(at|from|to)$/.test(field) ? { ...rest, [field]: isoInstant(random, asOf + HOUR) } : entry),
    ],
    [0.7, () => (/^(at|from|to)$/.test(field) ? { ...rest, [field]: String(value).slice(0, 10) } : entry)],
  ])();
}
