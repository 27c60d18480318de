import type { Case } from '@dwellset/core';
import { type Judge, outcomesInto, textsOf } from './judge.ts';
import type { News, Side } from './shapes.ts';

/** A longer stretch of work is broken here, so that newer orders are heard. */
const SLICE_MS = 12;

/** How far the patients of a set have been judged by one side's rules. */
export class Filling {
  readonly side: Side;
  readonly judge: Judge;
  /** Rows with outcomes, and rows with texts. */
  #cells = 0;
  #texts = 0;

  constructor(side: Side, judge: Judge) {
    this.side = side;
    this.judge = judge;
  }

  /** Judges the next few patients and tells of them; false where all are judged. */
  slice(
    what: 'cells' | 'texts',
    patients: readonly { readonly case: Case }[],
    post: (news: News) => void,
  ): boolean {
    const from = what === 'cells' ? this.#cells : this.#texts;
    if (from >= patients.length) return false;
    const until = performance.now() + SLICE_MS;
    const { side } = this;
    const { set, rules } = this.judge;
    let at = from;
    if (what === 'cells') {
      const outcomes: number[] = [];
      const row = new Uint8Array(rules.length);
      do {
        outcomesInto(this.judge, patients[at]!.case, row, 0);
        outcomes.push(...row);
        at += 1;
      } while (at < patients.length && performance.now() < until);
      this.#cells = at;
      post({ kind: 'cells', set, side, rules, from, cells: Uint8Array.from(outcomes), rows: at - from });
    } else {
      const texts: { short: string; sign: string }[] = [];
      do {
        texts.push(textsOf(this.judge, patients[at]!.case));
        at += 1;
      } while (at < patients.length && performance.now() < until);
      this.#texts = at;
      const [shorts, signs] = [texts.map(({ short }) => short), texts.map(({ sign }) => sign)];
      post({ kind: 'texts', set, side, from, shorts, signs });
    }
    return true;
  }
}
