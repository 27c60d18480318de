import { FALSE, TRUE, type Truth, UNKNOWN, word } from '../facts/truth.ts';
import type { Node } from '../plan/plan.ts';
import type { Reason } from './assessment.ts';
import type { Shown } from './shown.ts';

type Group = Extract<Node, { readonly of: readonly Node[] }>;

/** Marks what decides nothing. */
const NOTHING = -1;
/** Marks a group of which every child decides. */
const EVERYTHING = -2;

/** Statements of reasons of one case, read from its truths. */
export class Reasons {
  private readonly truths: Uint8Array;
  private readonly shown: Shown;

  constructor(truths: Uint8Array, shown: Shown) {
    this.truths = truths;
    this.shown = shown;
  }

  truthAt(node: Node): Truth {
    return this.truths[node.at] as Truth;
  }

  /** Builds the reasons below a node; with `decidingOnly` the parts that decide nothing are left out. */
  of(node: Node, deciding: boolean, decidingOnly: boolean): Reason {
    const truth = word(this.truthAt(node));
    switch (node.kind) {
      case 'fact': {
        // Put down in full for each form: there are hundreds of them a case.
        const { kind, operator, expected, parameter } = node;
        const read = this.shown.of(node);
        if (parameter !== undefined) {
          return expected === undefined
            ? { kind, truth, deciding, operator, parameter, read }
            : { kind, truth, deciding, operator, expected, parameter, read };
        }
        return expected === undefined
          ? { kind, truth, deciding, operator, read }
          : { kind, truth, deciding, operator, expected, read };
      }
      case 'parameter': {
        const { kind, parameter, operator, expected, value } = node;
        return { kind, truth, deciding, parameter, operator, expected, value };
      }
      case 'named': {
        const of: readonly [Reason] = [this.of(node.of[0], deciding, decidingOnly)];
        return { kind: node.kind, name: node.name, truth, deciding, of };
      }
      case 'not':
        return { kind: node.kind, truth, deciding, of: [this.of(node.of[0], deciding, decidingOnly)] };
      default:
        return { kind: node.kind, truth, deciding, of: this.children(node, deciding, decidingOnly) };
    }
  }

  /** Lists of their exact length: one that grows takes room for many more than a group has children. */
  private children({ kind, at, of }: Group, deciding: boolean, decidingOnly: boolean): Reason[] {
    const decides = deciding ? decidingTruth(kind, this.truths[at]!) : NOTHING;
    const everything = decides === EVERYTHING;
    let count = of.length;
    if (decidingOnly && !everything) {
      count = 0;
      for (const inner of of) if (this.truths[inner.at] === decides) count += 1;
    }
    const told = new Array<Reason>(count);
    let next = 0;
    for (const inner of of) {
      const isFixed = everything || this.truths[inner.at] === decides;
      if (isFixed || !decidingOnly) told[next++] = this.of(inner, isFixed, decidingOnly);
    }
    return told;
  }
}

/**
 * The truth of the children that alone fix the truth of a group: those that make an `all` false or an `any` true; all
 * of them where it took them all; and where the group is unknown, those that keep it open.
 */
function decidingTruth(kind: Group['kind'], truth: number): number {
  if (truth === UNKNOWN) return UNKNOWN;
  return truth === (kind === 'all' ? FALSE : TRUE) ? truth : EVERYTHING;
}
