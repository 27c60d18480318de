/** One answer on which the two engines differ; both stand as plain text, neither is preferred. */
export interface Disagreement {
  readonly set: string;
  readonly rule?: string;
  /** What was asked, in the words of the assessment: `outcome`, `check`, `conclusion`, `compliance`, … */
  readonly what: string;
  readonly core: string;
  readonly second: string;
}

/** Lays answers side by side and keeps count, so that "no disagreement" says over how many. */
export class Tally {
  readonly #set: string;
  readonly #disagreements: Disagreement[] = [];
  #compared = 0;

  constructor(set: string) {
    this.#set = set;
  }

  compare(what: string, core: unknown, second: unknown, rule?: string): void {
    // Where neither engine says anything, nothing was compared.
    if (core === undefined && second === undefined) return;
    this.#compared += 1;
    const texts = { core: text(core), second: text(second) };
    if (texts.core === texts.second) return;
    this.#disagreements.push({ set: this.#set, ...(rule === undefined ? {} : { rule }), what, ...texts });
  }

  get compared(): number {
    return this.#compared;
  }

  get disagreements(): readonly Disagreement[] {
    return this.#disagreements;
  }
}

const text = (answer: unknown): string =>
  answer === undefined ? 'nothing' : typeof answer === 'string' ? answer : JSON.stringify(answer);
