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

  private children(node: Group, deciding: boolean, decidingOnly: boolean): Reason[] {
    const decides = deciding ? this.decidingTruth(node) : NOTHING;
    const of: Reason[] = [];
    for (const inner of node.of) {
      const isFixed = decides === EVERYTHING || this.truths[inner.at] === decides;
      if (isFixed || !decidingOnly) of.push(this.of(inner, isFixed, decidingOnly));
    }
    return of;
  }

  /**
   * The children that alone fix the truth of a group: those that make an `all` false or an `any` true; all of them
   * where it took them all; and where the group is unknown, those that keep it open.
   */
  private decidingTruth(node: Group): number {
    const truth = this.truthAt(node);
    if (truth === UNKNOWN) return UNKNOWN;
    return truth === (node.kind === 'all' ? FALSE : TRUE) ? truth : EVERYTHING;
  }
}
