import type { Outcome } from '@dwellset/core';
import { signal } from '@preact/signals';
import { OUTCOMES } from './outcomes.ts';
import type { News, Row, Side } from './shapes.ts';

interface Judged {
  rules: readonly string[];
  /** Rule → its place in a row. */
  places: ReadonlyMap<string, number>;
  /** Places in OUTCOMES, row by row; what is not judged yet is NONE. */
  cells: Uint8Array;
  shorts: string[];
  signs: string[];
}

const NONE = 255;
const LATER_MS = 200;
const NOTHING: readonly string[] = [];
const nothing = (): Judged => ({
  rules: [],
  places: new Map(),
  cells: new Uint8Array(),
  shorts: [],
  signs: [],
});

/** One set's invented patients and how every rule ends for each, as published and with the author's changes. */
export class Ledger {
  readonly set: string;
  /** Counts up whenever something in here changed. */
  readonly tick = signal(0);
  rows: readonly Row[] = [];
  /** Its patients could not be fetched, so nothing is known of them. */
  isMissing = false;
  base: Judged = nothing();
  ours: Judged | undefined;
  readonly #changed = new Map<number, readonly string[]>();
  #frame: number | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(set: string) {
    this.set = set;
  }

  /** What comes in between two frames is drawn once. */
  #tell(): void {
    this.#changed.clear();
    if (this.#frame !== undefined) return;
    this.#frame = requestAnimationFrame(this.#draw);
    this.#tellLater();
  }

  /** Texts of hundreds of patients come in for seconds; to draw each frame anew for them would hold typing up. */
  #tellLater(): void {
    // A window behind another has no frames, and is read when it comes to the front.
    this.#timer ??= setTimeout(this.#draw, LATER_MS);
  }

  readonly #draw = (): void => {
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
    this.#frame = undefined;
    this.#timer = undefined;
    this.tick.value = this.tick.peek() + 1;
  };

  patients(rows: readonly Row[]): void {
    this.rows = rows;
    this.isMissing = false;
    this.base = nothing();
    this.ours = undefined;
    this.#tell();
  }

  missing(): void {
    this.isMissing = true;
    this.#tell();
  }

  /** At once: the line above it says so at once too. */
  same(): void {
    if (this.ours === undefined) return;
    this.ours = undefined;
    this.#changed.clear();
    this.#draw();
  }

  /** Some rules end so, the others as published; patients of the published rules have come in before. */
  some({ all, rules, from, cells, rows }: Extract<News, { kind: 'some' }>): void {
    const { base } = this;
    if (from === 0 || this.ours === undefined) this.ours = this.#judged(all);
    const { ours } = this;
    const told = new Map(rules.map((rule, at) => [rule, at]));
    ours.rules.forEach((rule, place) => {
      const [at, before] = [told.get(rule), base.places.get(rule)];
      for (let row = 0; row < rows; row += 1) {
        const published =
          before === undefined ? NONE : base.cells[(from + row) * base.rules.length + before]!;
        const cell = at === undefined ? published : cells[row * rules.length + at]!;
        ours.cells[(from + row) * ours.rules.length + place] = cell;
      }
    });
    this.#tell();
  }

  #judged(rules: readonly string[]): Judged {
    return {
      ...nothing(),
      rules,
      places: new Map(rules.map((id, at) => [id, at])),
      cells: new Uint8Array(this.rows.length * rules.length).fill(NONE),
    };
  }

  cells({ side, rules, from, cells }: Extract<News, { kind: 'cells' }>): void {
    const known = side === 'base' ? this.base : this.ours;
    const fits = known?.rules.length === rules.length && known.rules.every((id, at) => id === rules[at]);
    const judged = fits ? known : this.#judged(rules);
    judged.cells.set(cells, from * rules.length);
    if (from === 0) {
      judged.shorts = [];
      judged.signs = [];
    }
    if (side === 'base') this.base = judged;
    else this.ours = judged;
    this.#tell();
  }

  texts({ side, from, shorts, signs }: Extract<News, { kind: 'texts' }>): void {
    const judged = side === 'base' ? this.base : this.ours;
    if (!judged) return;
    shorts.forEach((short, at) => {
      judged.shorts[from + at] = short;
      judged.signs[from + at] = signs[at]!;
    });
    this.#tellLater();
  }

  /** Rules in the order in force, with those of the hospital's own; rules are never taken away. */
  get rules(): readonly string[] {
    return this.ours?.rules ?? this.base.rules;
  }

  outcome(side: Side, row: number, rule: string): Outcome | undefined {
    const judged = side === 'ours' ? (this.ours ?? this.base) : this.base;
    const at = judged.places.get(rule);
    return at === undefined ? undefined : OUTCOMES[judged.cells[row * judged.rules.length + at] ?? NONE];
  }

  /** Everything that is drawn of a patient, in short: a row with the same sign looks the same. */
  drawn(row: number, columns: readonly { readonly rule: string }[]): string {
    const cells = columns.map(({ rule }) => {
      const now = this.outcome('ours', row, rule) ?? '';
      return this.isChanged(row, rule) ? `${now}<${this.outcome('base', row, rule) ?? ''}` : now;
    });
    return [this.rows[row]?.key, this.short(row), this.readsDifferently(row), ...cells].join();
  }

  short(row: number): string | undefined {
    return (this.ours ?? this.base).shorts[row];
  }

  /** The rules that end differently for one patient; found once for each state of the ledger. */
  changed(row: number): readonly string[] {
    if (!this.ours) return NOTHING;
    const known = this.#changed.get(row);
    if (known) return known;
    const found = this.ours.rules.filter((rule) => this.isChanged(row, rule));
    this.#changed.set(row, found);
    return found;
  }

  isChanged(row: number, rule: string): boolean {
    if (!this.ours) return false;
    const now = this.outcome('ours', row, rule);
    if (now === undefined) return false;
    const before = this.outcome('base', row, rule);
    // A rule of the hospital's own changes the patients it speaks or asks about.
    if (before === undefined && !this.base.places.has(rule))
      return now === 'applies' || now === 'undetermined';
    // Switching off a rule that said nothing about a patient changes nothing for them.
    if (now === 'switched-off') return before === 'applies' || before === 'undetermined';
    return before !== undefined && before !== now;
  }

  /** The rules end as before, but a text, a rank or the conclusion is another. */
  readsDifferently(row: number): boolean {
    const [before, now] = [this.base.signs[row], this.ours?.signs[row]];
    return before !== undefined && now !== undefined && before !== now;
  }

  /** How many patients change, and how many more only read differently. */
  counts(): { changed: number; reads: number } {
    let [changed, reads] = [0, 0];
    if (!this.ours) return { changed, reads };
    this.rows.forEach((_, row) => {
      if (this.changed(row).length > 0) changed += 1;
      else if (this.readsDifferently(row)) reads += 1;
    });
    return { changed, reads };
  }

  /** How one rule ends over all patients. */
  tally(rule: string): ReadonlyMap<Outcome, number> {
    const counts = new Map<Outcome, number>();
    this.rows.forEach((_, row) => {
      const outcome = this.outcome('ours', row, rule);
      if (outcome) counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
    });
    return counts;
  }
}
