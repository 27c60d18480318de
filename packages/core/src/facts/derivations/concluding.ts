import type { Derivation } from '../../release/fact.ts';
import { TRUE, UNKNOWN } from '../truth.ts';
import { none } from './choosing.ts';
import { type DerivationKind, inexact, NOTHING_TO_WATCH } from './kind.ts';

type Conclusion = Extract<Derivation, { readonly conclusion: string }>;

/**
 * What another rule set concludes: one code where that is settled, else the conclusions that precedence has not yet
 * excluded. So a provisional conclusion can still settle a condition that holds for all of them.
 */
export const conclusion: DerivationKind<Conclusion> = {
  // The facts behind it are those of the other rule set; the plan orders them before this one.
  facts: () => [],
  check: (_derivation, fact) =>
    fact.type === 'code' ? [] : [{ at: '', expected: 'a code', received: fact.type }],
  evaluate: ({ conclusion }, fact, inputs) => {
    const { possible, settled, stands } = inputs.conclusion(conclusion);
    if (possible.length === 0) return none(fact, inputs);
    const bounds = stands ? ({ kind: 'possible', possible } as const) : none(fact, inputs).bounds;
    return { bounds, recorded: settled ? TRUE : UNKNOWN };
  },
  asks: ({ conclusion }, inputs) => inexact(inputs.conclusion(conclusion).waitsFor, inputs),
  // Every leaf of the other rule set is watched for itself.
  watch: () => NOTHING_TO_WATCH,
};
