import type { Derivation, Fact } from '../../release/fact.ts';
import { type Bounds, domain, isExact, type Reading } from '../reading.ts';
import { and, FALSE, or, TRUE, type Truth, UNKNOWN } from '../truth.ts';
import {
  type DerivationFault,
  type DerivationKind,
  type Derived,
  type Dictionary,
  ends,
  type Inputs,
  inexact,
  interval,
} from './kind.ts';

type Kind<K extends string> = Extract<Derivation, Readonly<Record<K, unknown>>>;

/** Nothing is there to be known: the whole domain, and known to be empty. */
export const none = (fact: Fact, inputs: Inputs): Derived => ({
  bounds: domain(
    fact,
    fact.codes === undefined ? [] : inputs.codes(fact.codes),
    // Only instants end with the moment of the case; the rest does not look at it, and so is the same at every moment.
    fact.type === 'date-time' ? inputs.asOf.high : Infinity,
  ),
  recorded: FALSE,
  none: true,
});

/** Everything that either of two bounds allows. */
export function hull(a: Bounds, b: Bounds): Bounds {
  if (a.kind === 'interval' && b.kind === 'interval')
    return interval(Math.min(a.low, b.low), Math.max(a.high, b.high));
  if (a.kind === 'possible' && b.kind === 'possible') {
    return { kind: 'possible', possible: [...new Set([...a.possible, ...b.possible])] };
  }
  if (a.kind === 'answers' && b.kind === 'answers') {
    const merged = new Map<string, Truth>();
    for (const [code, answer] of a.answers)
      merged.set(code, b.answers.get(code) === answer ? answer : UNKNOWN);
    return { kind: 'answers', answers: merged };
  }
  return {
    kind: 'text',
    text: a.kind === 'text' && b.kind === 'text' && a.text === b.text ? a.text : undefined,
  };
}

/** Operands must be of the fact's own type and unit. */
const sameKindFaults = (
  name: string,
  ids: readonly string[],
  fact: Fact,
  dictionary: Dictionary,
): DerivationFault[] =>
  ids.flatMap((id, index) => {
    const operand = dictionary.fact(id);
    const fits =
      !operand ||
      (operand.type === fact.type &&
        (operand.unit ?? '1') === (fact.unit ?? '1') &&
        operand.codes === fact.codes);
    return fits
      ? []
      : [
          {
            at: `/${name}/${index}`,
            expected: kindOf(fact),
            received: `${id} (${operand ? kindOf(operand) : ''})`,
          },
        ];
  });

const kindOf = (fact: Fact): string =>
  [fact.type, fact.unit && `in ${fact.unit}`, fact.codes && `of ${fact.codes}`].filter(Boolean).join(' ');

function extreme<N extends 'lowest' | 'highest'>(
  name: N,
  pick: (...values: number[]) => number,
): DerivationKind<Kind<N>> {
  const ids = (derivation: Kind<N>): readonly string[] =>
    (derivation as Readonly<Record<N, readonly string[]>>)[name];
  return {
    facts: ids,
    check: (derivation, fact, dictionary) => [
      ...(['number', 'date', 'date-time'].includes(fact.type)
        ? []
        : [{ at: '', expected: 'a number, date or date-time', received: fact.type }]),
      ...sameKindFaults(name, ids(derivation), fact, dictionary),
    ],
    evaluate: (derivation, fact, inputs) => {
      const present = ids(derivation)
        .map((id) => inputs.reading(id))
        .filter((reading) => !reading.none);
      if (present.length === 0) return none(fact, inputs);
      return {
        bounds: interval(pick(...present.map((r) => ends(r).low)), pick(...present.map((r) => ends(r).high))),
        recorded: present.reduce<Truth>((sofar, reading) => and(sofar, reading.recorded), TRUE),
      };
    },
    asks: (derivation, inputs) =>
      inexact(
        ids(derivation).filter((id) => !inputs.reading(id).none),
        inputs,
      ),
    watch: (derivation, _fact, cuts) => ({
      instants: [],
      pass: ids(derivation).map((id) => [id, cuts] as const),
    }),
  };
}

export const lowest = extreme('lowest', Math.min);
export const highest = extreme('highest', Math.max);

/**
 * The first operand that stands in the record; the next is taken only where a record is known to be empty, never
 * where nobody supplied one. A value from a later operand is marked assumed.
 */
export const firstRecorded: DerivationKind<Kind<'firstRecorded'>> = {
  facts: ({ firstRecorded }) => firstRecorded,
  check: ({ firstRecorded }, fact, dictionary) =>
    sameKindFaults('firstRecorded', firstRecorded, fact, dictionary),
  evaluate: ({ firstRecorded }, fact, inputs) => {
    const readings = firstRecorded.map((id) => inputs.reading(id));
    const recorded = readings.reduce<Truth>((sofar, reading) => or(sofar, reading.recorded), FALSE);
    const bounds = readings.reduceRight<Bounds | undefined>(passOn, undefined);
    if (bounds === undefined) return none(fact, inputs);
    const source = readings.findIndex((reading) => reading.recorded !== FALSE);
    return { bounds, recorded, ...(source > 0 && isExact(bounds) ? { assumed: true } : {}) };
  },
  asks: ({ firstRecorded }, inputs) => {
    const open: string[] = [];
    for (const id of firstRecorded) {
      const { recorded, cause } = inputs.reading(id);
      if (recorded === FALSE) continue;
      // Exact but perhaps not recorded: the later operands count as well until that is known.
      if (cause !== undefined || recorded === UNKNOWN) open.push(id);
      break;
    }
    return open;
  },
  watch: ({ firstRecorded }, _fact, cuts) => ({
    instants: [],
    pass: firstRecorded.map((id) => [id, cuts] as const),
  }),
};

/**
 * What one operand makes of what the later ones would give. The last one that may stand has nothing behind it: its
 * bounds hold whether or not anybody recorded it, as with a table's cells while its key is not known.
 */
function passOn(later: Bounds | undefined, { recorded, bounds }: Reading): Bounds | undefined {
  if (recorded === FALSE) return later;
  return recorded === TRUE || later === undefined ? bounds : hull(bounds, later);
}
