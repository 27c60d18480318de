import type { Case, CaseValue } from '@dwellset/core';
import { type Difference, differences, type Pair } from './differences.ts';
import type { Direction, Seed, Witness } from './shape.ts';

const size = ({ case: patient }: Pick<Seed, 'case'>): number => Object.keys(patient.facts).length;

/** How many seeds one search begins from, those with the fewest facts first. */
const STARTS = 3;

/**
 * The smallest case that still shows a change: facts, codes, entries and times are dropped one at a time for as
 * long as the change stays, beginning from several seeds.
 */
export function witnessOf(
  pair: Pair,
  subject: string,
  direction: Direction,
  seeds: readonly Seed[],
): Witness | undefined {
  const shows = (patient: Case): Difference | undefined =>
    differences(pair, patient).differ.find((one) => one.subject === subject && one.direction === direction);
  const found = [...seeds]
    .sort((a, b) => size(a) - size(b))
    .slice(0, STARTS)
    .flatMap((seed): Witness[] => {
      const smallest = shrink(seed.case, (patient) => shows(patient) !== undefined);
      const difference = shows(smallest);
      if (difference === undefined) return [];
      const { item, before, after } = difference;
      return [{ case: smallest, from: seed.from, name: seed.name, ...(item && { item }), before, after }];
    });
  return found.sort((a, b) => size(a) - size(b))[0];
}

/** Drops what can be dropped until nothing more can; what is left needs every one of its parts. */
function shrink(patient: Case, keeps: (patient: Case) => boolean): Case {
  let current = patient;
  for (let smaller = true; smaller; ) {
    smaller = false;
    for (const candidate of smallerCases(current)) {
      if (!keeps(candidate)) continue;
      current = candidate;
      smaller = true;
      break;
    }
  }
  return current;
}

function* smallerCases(patient: Case): Generator<Case> {
  const { facts, chosen, searched, responses, recordedAt: _, note, id, ...rest } = patient;
  const kept = { ...(patient.recordedAt !== undefined && { recordedAt: patient.recordedAt }) };
  if (note !== undefined || id !== undefined || responses !== undefined) {
    yield {
      ...rest,
      ...kept,
      facts,
      ...(chosen && { chosen }),
      ...(searched && { searched }),
    };
  }
  if (chosen) yield { ...rest, ...kept, facts, ...(searched && { searched }) };
  if (searched) yield { ...rest, ...kept, facts, ...(chosen && { chosen }) };
  for (const fact of Object.keys(facts)) {
    const { [fact]: _dropped, ...others } = facts;
    yield { ...patient, facts: others };
  }
  for (const [fact, value] of Object.entries(facts)) {
    for (const smaller of smallerValues(value)) yield { ...patient, facts: { ...facts, [fact]: smaller } };
  }
}

/** Shorter lists, and stated values without their trimmings. */
function* smallerValues(value: CaseValue): Generator<CaseValue> {
  if (Array.isArray(value)) {
    for (let index = 0; index < value.length; index++)
      yield value.filter((_, at) => at !== index) as CaseValue;
  } else if (typeof value === 'object' && value !== null && 'value' in value) {
    for (const key of ['from', 'confirmed', 'comparator', 'at'] as const) {
      if (!(key in value)) continue;
      const { [key]: _dropped, ...rest } = value as unknown as Record<string, unknown>;
      yield rest as unknown as CaseValue;
    }
  }
}
