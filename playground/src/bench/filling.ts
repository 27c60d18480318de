import { type CaseColumns, judgeCases, readCases } from '@dwellset/core';
import { type Judge, textsOf } from './judge.ts';
import { OUTCOMES } from './outcomes.ts';
import type { Patient } from './published.ts';
import type { QuickJudge } from './quick.ts';
import type { News, Side } from './shapes.ts';

/** A longer stretch of work is broken here, so that newer orders are heard. */
const SLICE_MS = 12;
/** Patients read in one piece: those that a page shows first, then as many as make a short task. */
const FIRST = 40;
const PART = 120;

export interface Part {
  readonly from: number;
  readonly patients: readonly Patient[];
  /** Read once by the published rules; other rules read again only what means something else to them. */
  columns?: CaseColumns;
}

/** The patients of a set as they are judged: in parts, each read into columns when it is first wanted. */
export class Rows {
  readonly patients: readonly Patient[];
  readonly parts: readonly Part[];

  constructor(patients: readonly Patient[]) {
    this.patients = patients;
    const parts: Part[] = [];
    for (let from = 0; from < patients.length; from += parts.at(-1)!.patients.length) {
      parts.push({ from, patients: patients.slice(from, from === 0 ? FIRST : from + PART) });
    }
    this.parts = parts;
  }
}

/** How the rules of a judge end for the patients of one part: places in OUTCOMES, row by row. */
function cellsOf({ set, rules, plan }: Judge, part: Part): Uint8Array {
  const { length } = part.patients;
  part.columns ??= readCases(
    plan,
    part.patients.map((patient) => patient.case),
  );
  const judged = judgeCases(plan, part.columns);
  const cells = new Uint8Array(length * rules.length);
  rules.forEach((rule, place) => {
    for (let row = 0; row < length; row += 1) {
      cells[row * rules.length + place] = OUTCOMES.indexOf(judged.outcome(set, rule, row));
    }
  });
  return cells;
}

/** How far the patients of a set have been judged by one side's rules. */
export class Filling {
  readonly side: Side;
  readonly judge: Judge;
  /** Parts with outcomes, and rows with texts. */
  #parts = 0;
  #texts = 0;

  constructor(side: Side, judge: Judge) {
    this.side = side;
    this.judge = judge;
  }

  /** Judges the next few patients and tells of them; false where all are judged. */
  slice(what: 'cells' | 'texts', rows: Rows, post: (news: News) => void): boolean {
    return what === 'cells' ? this.#cellsOf(rows, post) : this.#textsOf(rows, post);
  }

  #cellsOf({ parts }: Rows, post: (news: News) => void): boolean {
    const part = parts[this.#parts];
    if (!part) return false;
    this.#parts += 1;
    const { set, rules } = this.judge;
    const cells = cellsOf(this.judge, part);
    post({ kind: 'cells', set, side: this.side, rules, from: part.from, cells, rows: part.patients.length });
    return true;
  }

  /** Whether it has told the outcomes of so many rows. */
  reaches(parts: number): boolean {
    return this.#parts >= parts;
  }

  #textsOf({ patients }: Rows, post: (news: News) => void): boolean {
    const from = this.#texts;
    if (from >= patients.length) return false;
    const until = performance.now() + SLICE_MS;
    const texts: { short: string; sign: string }[] = [];
    do {
      texts.push(textsOf(this.judge, patients[this.#texts]!.case));
      this.#texts += 1;
    } while (this.#texts < patients.length && performance.now() < until);
    const [shorts, signs] = [texts.map(({ short }) => short), texts.map(({ sign }) => sign)];
    post({ kind: 'texts', set: this.judge.set, side: this.side, from, shorts, signs });
    return true;
  }
}

/** The patients of a set by the rules that a change reaches, on top of how the published rules end for them. */
export class QuickFilling {
  readonly #judge: QuickJudge;
  readonly #base: Filling;
  #parts = 0;

  constructor(judge: QuickJudge, base: Filling) {
    this.#judge = judge;
    this.#base = base;
  }

  /** Tells of as many patients as a short while allows; false where all are told. */
  slice(rows: Rows, post: (news: News) => void): boolean {
    const { parts } = rows;
    const from = parts[this.#parts]?.from;
    if (from === undefined) return false;
    const until = performance.now() + SLICE_MS;
    const { set, all, rules } = this.#judge;
    const cells: number[] = [];
    do {
      const part = parts[this.#parts]!;
      this.#parts += 1;
      while (!this.#base.reaches(this.#parts)) this.#base.slice('cells', rows, post);
      cells.push(...cellsOf(this.#judge, part));
    } while (this.#parts < parts.length && performance.now() < until);
    const count = (parts[this.#parts]?.from ?? rows.patients.length) - from;
    post({ kind: 'some', set, all, rules, from, cells: Uint8Array.from(cells), rows: count });
    return true;
  }
}
