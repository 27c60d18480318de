import type { Fact } from '../../release/fact.ts';
import type { DerivationOf, ScalarKind } from './kinds.ts';
import { band, countCodes, firstRecorded, lookup } from './witness/coded.ts';
import { calendarDays, elapsed, localHour, monotone, ratio } from './witness/measured.ts';
import type { Values } from './witness/search.ts';
import { type ExactValue, Trial, type WitnessInputs } from './witness/trial.ts';

export type { ExactValue, WitnessInputs, WitnessValue } from './witness/trial.ts';

type Witness<N extends ScalarKind> = (
  trial: Trial,
  target: ExactValue,
  derivation: DerivationOf<N>,
) => Values | undefined;

/** One entry a kind: a kind without its witness does not compile. What looks at a list has none. */
const WITNESS: { readonly [N in ScalarKind]: Witness<N> } = {
  elapsed,
  calendarDays,
  localHour,
  difference: monotone,
  sum: monotone,
  product: monotone,
  ratio,
  lowest: monotone,
  highest: monotone,
  firstRecorded,
  lookup,
  band,
  countCodes,
  // The facts behind it are those of the other rule set: here it is given.
  conclusion: (trial, target) => (trial.gives(target) ? new Map() : undefined),
};

/**
 * Values of a derived fact's operands that make it exactly `target`; local choices, constants, the moment of the case
 * and what another rule set concludes are as given. Each value keeps to its fact's limits, step and codes and to the
 * order of instants, but may be unusual: a case has to confirm it. An operand that is not named is of no matter.
 *
 * Nothing where no values do: the target is not a value of the fact (limits, step, codes, later than the case), the
 * operands' limits do not reach it, their steps jump over it, no code leads to it, or nothing is left to choose and
 * what is given differs. Three bounds of the search count as nothing too: a derived operand is given a value but
 * never emptied; a number without limits is looked for within ±1e15 and a day in the years 1 to 9999; and where
 * several operands are left over, a search is given up after some 300,000 trials.
 */
export function witnessOf(fact: Fact, target: ExactValue, inputs: WitnessInputs): Values | undefined {
  if (fact.from === undefined) throw new TypeError(`${fact.id} is not derived`);
  const witness = WITNESS[Object.keys(fact.from)[0] as ScalarKind] as Witness<ScalarKind> | undefined;
  if (witness === undefined)
    throw new TypeError(`${fact.id} looks at a list, whose items are not chosen here`);
  const trial = new Trial(fact, inputs);
  if (!trial.admits(fact, target)) return undefined;
  return witness(trial, target, fact.from as DerivationOf<ScalarKind>);
}
