import { type Node, TRUE, type Truth, type TruthOf, UNKNOWN } from '@dwellset/core';
import { Gates, settle } from './gates.ts';
import type { Value, Variable } from './variables.ts';

/** The value taken by each of some variables; whatever is not named may be anything. */
export type Box = ReadonlyMap<Variable, Value>;

/** What is looked for in a table of truths that is filled in variable by variable. */
export interface Goal {
  /** Everything that `decide` reads, in the order in which open comparisons are to be settled. */
  readonly nodes: readonly Node[];
  /** True: here it is. False: it is nowhere in this box. Unknown: look closer. */
  readonly decide: (truthOf: TruthOf) => Truth;
  /** Where nothing is left to be split: whether it is here although `decide` does not know. */
  readonly atEnd?: (truthOf: TruthOf) => boolean;
}

export interface Searched {
  readonly found?: Box;
  /** Boxes looked at. */
  readonly boxes: number;
  /** Boxes that were found but not accepted. */
  readonly rejected: number;
  /** False where the search was given up; nothing found is no proof then. */
  readonly exhausted: boolean;
}

const MOST_BOXES = 40_000;
const MOST_REJECTED = 60;

/**
 * Looks for values that a goal holds for. A box is split only along a comparison that is still open in it, so that
 * what does not matter is left open; with a value that is missing, only where all values of a variable are listed, is
 * "nothing found" a proof. `accept` has the last word on a box.
 */
export function search(
  variables: readonly Variable[],
  start: Uint8Array,
  goal: Goal,
  accept: (box: Box) => boolean,
  most = MOST_BOXES,
): Searched {
  const truths = start.slice();
  const gates = new Gates(goal.nodes);
  gates.settle(truths);
  const truthOf: TruthOf = (node) => (node === undefined ? TRUE : (truths[node.at] as Truth));
  const moved = new Map(variables.map((variable) => [variable, gates.above(variable.places)]));
  const at: (Variable | undefined)[] = new Array(start.length);
  for (const variable of variables) for (const place of variable.places) at[place] = variable;
  const box = new Map<Variable, Value>();
  let [boxes, rejected] = [0, 0];
  let found: Box | undefined;
  let givenUp = false;

  /** The variable behind the first comparison that keeps the goal open. */
  const openIn = (node: Node): Variable | undefined => {
    if (!('of' in node)) {
      const variable = node.kind === 'fact' ? at[node.at] : undefined;
      return variable && !box.has(variable) ? variable : undefined;
    }
    for (const inner of node.of) {
      if (truths[inner.at] !== UNKNOWN) continue;
      const open = openIn(inner);
      if (open) return open;
    }
    return undefined;
  };
  const next = (): Variable | undefined => {
    for (const node of goal.nodes) {
      const open = truthOf(node) === UNKNOWN ? openIn(node) : undefined;
      if (open) return open;
    }
    return undefined;
  };

  const take = (): boolean => {
    if (accept(box)) {
      found = new Map(box);
      return true;
    }
    rejected += 1;
    givenUp = rejected >= MOST_REJECTED;
    return givenUp;
  };

  const visit = (): boolean => {
    boxes += 1;
    if (boxes > most) {
      givenUp = true;
      return true;
    }
    const decided = goal.decide(truthOf);
    if (decided === TRUE) return take();
    if (decided !== UNKNOWN) return false;
    const variable = next();
    if (variable === undefined) return goal.atEnd?.(truthOf) === true && take();
    const { places } = variable;
    const above = moved.get(variable)!;
    const put = (own: readonly Truth[]): void => {
      for (let index = 0; index < places.length; index += 1) truths[places[index]!] = own[index]!;
      settle(above, truths);
    };
    const kept = places.map((place) => truths[place] as Truth);
    for (const value of variable.values) {
      box.set(variable, value);
      put(value.truths);
      if (visit()) return true;
    }
    box.delete(variable);
    put(kept);
    return false;
  };
  visit();
  return { ...(found ? { found } : {}), boxes, rejected, exhausted: !givenUp };
}
