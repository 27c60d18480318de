import type { Derivation, Fact } from '../../release/fact.ts';
import type { Interval } from '../reading.ts';
import { localHour as hourOn, instantsOfHour, localDay, MS_PER_UNIT, midnights } from '../time.ts';
import {
  allRecorded,
  type DerivationFault,
  type DerivationKind,
  type Dictionary,
  factsOf,
  type Inputs,
  inexact,
  interval,
  isExactInterval,
  NOTHING_TO_WATCH,
  operandEnds,
} from './kind.ts';

type Kind<K extends string> = Extract<Derivation, Readonly<Record<K, unknown>>>;

const between = ({ from, to }: { from: string; to: string }): string[] => factsOf([from, to]);

/** Elapsed and calendar time run between instants or days; `asOf` is an instant. */
function timeFaults(
  operands: Readonly<Record<string, string>>,
  allowed: readonly string[],
  dictionary: Dictionary,
): DerivationFault[] {
  return Object.entries(operands).flatMap(([at, id]) => {
    const type = id === 'asOf' ? 'date-time' : dictionary.fact(id)?.type;
    return type === undefined || allowed.includes(type)
      ? []
      : [{ at: `/${at}`, expected: allowed.join(' or '), received: `${id} (${type})` }];
  });
}

const unitFaults = (fact: Fact, units: readonly string[]): DerivationFault[] =>
  fact.type === 'number' && units.includes(fact.unit ?? '1')
    ? []
    : [
        {
          at: '',
          expected: `a number in ${units.join(', ')}`,
          received: `${fact.type} in ${fact.unit ?? '1'}`,
        },
      ];

/** The moment of the case moves, and so does the latest that an instant not exactly known may be. */
const moves = (operand: string, inputs: Inputs): boolean =>
  operand === 'asOf' || inputs.reading(operand).cause !== undefined;

/** Time passed between two instants, in the unit of the fact; daylight saving does not change it. */
export const elapsed: DerivationKind<Kind<'elapsed'>> = {
  timeless: true,
  facts: ({ elapsed }) => between(elapsed),
  check: ({ elapsed }, fact, dictionary) => [
    ...unitFaults(fact, Object.keys(MS_PER_UNIT)),
    ...timeFaults(elapsed, ['date-time'], dictionary).map((fault) => ({
      ...fault,
      at: `/elapsed${fault.at}`,
    })),
  ],
  evaluate: ({ elapsed }, fact, inputs) => {
    const unit = MS_PER_UNIT[fact.unit ?? 'h'] ?? 1;
    const from = operandEnds(elapsed.from, inputs);
    const to = operandEnds(elapsed.to, inputs);
    return {
      bounds: interval((to.low - from.high) / unit, (to.high - from.low) / unit),
      recorded: allRecorded([elapsed.from, elapsed.to], inputs),
    };
  },
  asks: ({ elapsed }, inputs) => inexact(between(elapsed), inputs),
  watch: ({ elapsed }, fact, cuts, inputs) => {
    const unit = MS_PER_UNIT[fact.unit ?? 'h'] ?? 1;
    // A fact with a step crosses where the rounded value does, half a step early.
    const shifts = fact.step === undefined ? [0] : [-fact.step / 2, fact.step / 2];
    const around = (anchor: string, sign: 1 | -1): number[] => {
      const { low, high } = operandEnds(anchor, inputs);
      const lengths = cuts.flatMap((cut) => shifts.map((shift) => sign * (cut + shift) * unit));
      return [low, high].flatMap((end) => lengths.map((length) => end + length));
    };
    const instants = [
      ...(moves(elapsed.to, inputs) ? around(elapsed.from, 1) : []),
      ...(moves(elapsed.from, inputs) ? around(elapsed.to, -1) : []),
    ];
    return { instants, pass: [] };
  },
};

/** The local days that an operand may fall on. */
function days(operand: string, inputs: Inputs): Interval {
  const ends = operandEnds(operand, inputs);
  if (operand !== 'asOf' && inputs.reading(operand).fact.type === 'date') return ends;
  const day = (end: number): number => (Number.isFinite(end) ? localDay(end, inputs.zone) : end);
  const low = day(ends.low);
  return interval(low, ends.high === ends.low ? low : day(ends.high));
}

/** Midnights on the local clock between two instants: the insertion day is day 0. A date is a local day already. */
export const calendarDays: DerivationKind<Kind<'calendarDays'>> = {
  timeless: true,
  facts: ({ calendarDays }) => between(calendarDays),
  check: ({ calendarDays }, fact, dictionary) => [
    ...unitFaults(fact, ['d']),
    ...timeFaults(calendarDays, ['date-time', 'date'], dictionary).map((fault) => ({
      ...fault,
      at: `/calendarDays${fault.at}`,
    })),
  ],
  evaluate: ({ calendarDays }, _fact, inputs) => {
    const { from, to } = calendarDays;
    const [first, last] = [days(from, inputs), days(to, inputs)];
    return {
      bounds: interval(last.low - first.high, last.high - first.low),
      recorded: allRecorded([from, to], inputs),
    };
  },
  asks: ({ calendarDays }, inputs) => inexact(between(calendarDays), inputs),
  watch: ({ calendarDays }, _fact, _cuts, inputs) =>
    moves(calendarDays.from, inputs) || moves(calendarDays.to, inputs)
      ? { instants: midnights(inputs.from, inputs.to, inputs.zone), pass: [] }
      : NOTHING_TO_WATCH,
};

/** The hour on the local clock; anything from 0 to 24 unless the instant is exactly known. */
export const localHour: DerivationKind<Kind<'localHour'>> = {
  facts: ({ localHour }) => factsOf([localHour.at]),
  check: ({ localHour }, fact, dictionary) => [
    ...unitFaults(fact, ['h']),
    ...timeFaults({ at: localHour.at }, ['date-time'], dictionary).map((fault) => ({
      ...fault,
      at: `/localHour${fault.at}`,
    })),
  ],
  evaluate: ({ localHour }, _fact, inputs) => {
    const at = operandEnds(localHour.at, inputs);
    const hour = isExactInterval(at) && Number.isFinite(at.low) ? hourOn(at.low, inputs.zone) : undefined;
    return {
      bounds: hour === undefined ? interval(0, 24) : interval(hour, hour),
      recorded: allRecorded([localHour.at], inputs),
    };
  },
  asks: ({ localHour }, inputs) => inexact(factsOf([localHour.at]), inputs),
  watch: ({ localHour }, fact, cuts, inputs) => {
    if (localHour.at !== 'asOf') return NOTHING_TO_WATCH;
    const half = (fact.step ?? 0) / 2;
    const hours = [...new Set([0, ...cuts.flatMap((cut) => [cut - half, cut, cut + half])])];
    return { instants: instantsOfHour(hours, inputs.from, inputs.to, inputs.zone), pass: [] };
  },
};
