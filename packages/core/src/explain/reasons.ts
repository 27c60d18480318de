import type { Reading } from '../facts/reading.ts';
import { FALSE, TRUE, type Truth, UNKNOWN, word } from '../facts/truth.ts';
import type { Node } from '../plan/plan.ts';
import type { Reason } from './assessment.ts';
import { factReading } from './factReading.ts';

/** What a statement of reasons is read from: the truths of one pass and the readings behind them. */
export interface Read {
  readonly truths: Uint8Array;
  readonly readings: ReadonlyMap<string, Reading>;
}

export const truthAt = (node: Node, read: Read): Truth => read.truths[node.at] as Truth;

/**
 * The children that alone fix the truth of a group: those that make an `all` false or an `any` true; all of them
 * where it took them all; and where the group is unknown, those that keep it open.
 */
function decidingChildren(node: Node, read: Read): readonly Node[] {
  if (node.kind === 'not' || node.kind === 'named') return node.of;
  if (node.kind !== 'all' && node.kind !== 'any') return [];
  const truth = truthAt(node, read);
  const alone: Truth = node.kind === 'all' ? FALSE : TRUE;
  if (truth === UNKNOWN) return node.of.filter((inner) => truthAt(inner, read) === UNKNOWN);
  return truth === alone ? node.of.filter((inner) => truthAt(inner, read) === alone) : node.of;
}

/** Builds the reasons below a node; with `decidingOnly` the parts that decide nothing are left out. */
export function reasonsOf(node: Node, read: Read, deciding: boolean, decidingOnly: boolean): Reason {
  const truth = word(truthAt(node, read));
  if (node.kind === 'fact') {
    return {
      kind: 'fact',
      truth,
      deciding,
      operator: node.operator,
      ...(node.expected === undefined ? {} : { expected: node.expected }),
      ...(node.parameter === undefined ? {} : { parameter: node.parameter }),
      read: factReading(read.readings.get(node.fact)!),
    };
  }
  if (node.kind === 'parameter') {
    const { parameter, operator, expected, value } = node;
    return { kind: 'parameter', truth, deciding, parameter, operator, expected, value };
  }
  const fixed = new Set(deciding ? decidingChildren(node, read) : []);
  const of = node.of
    .filter((inner) => !decidingOnly || fixed.has(inner))
    .map((inner) => reasonsOf(inner, read, fixed.has(inner), decidingOnly));
  if (node.kind === 'named') return { kind: 'named', name: node.name, truth, deciding, of: [of[0]!] };
  return node.kind === 'not'
    ? { kind: 'not', truth, deciding, of: [of[0]!] }
    : { kind: node.kind, truth, deciding, of };
}
