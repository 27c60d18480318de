import type { Derivation } from '../../release/fact.ts';
import { count, greatest, least, longestRun, newest, total } from './aggregates.ts';
import { difference, product, ratio, sum } from './arithmetic.ts';
import { firstRecorded, highest, lowest } from './choosing.ts';
import { band, countCodes, lookup } from './coding.ts';
import { conclusion } from './concluding.ts';
import { calendarDays, elapsed, localHour } from './elapsing.ts';
import type { DerivationKind } from './kind.ts';

/** The closed list of derivations. */
const KINDS = {
  elapsed,
  calendarDays,
  localHour,
  difference,
  sum,
  product,
  ratio,
  lowest,
  highest,
  firstRecorded,
  lookup,
  band,
  countCodes,
  conclusion,
  count,
  total,
  least,
  greatest,
  newest,
  longestRun,
} as const;

export type KindName = keyof typeof KINDS;

/** The kinds that look at a list; the others read facts of one value. */
type ListKind = 'count' | 'total' | 'least' | 'greatest' | 'newest' | 'longestRun';
export type ScalarKind = Exclude<KindName, ListKind>;

/** The derivations of one kind. */
export type DerivationOf<N extends KindName> = Extract<Derivation, Readonly<Record<N, unknown>>>;

export const DERIVATION_KINDS = Object.keys(KINDS) as readonly KindName[];

/** The kind that a derivation's one key names. */
export function kindOf(derivation: Derivation): DerivationKind<Derivation> {
  const name = Object.keys(derivation)[0] as KindName;
  return KINDS[name] as DerivationKind<Derivation>;
}
