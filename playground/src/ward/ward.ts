import {
  simulateWard,
  WardBurdenCounter,
  type WardChanges,
  WardChangesCounter,
  type WardDay,
  type WardDocument,
} from '@dwellset/authoring';
import {
  assess,
  type CaseColumns,
  type CasesJudged,
  judgeCases,
  type Plan,
  type Release,
  readCases,
} from '@dwellset/core';
import type { Step } from '../background.ts';
import { isPlan, planOf } from '../bench/judge.ts';
import { pause } from '../bench/pause.ts';
import type { WardNews, WardResult } from './shapes.ts';

/** Rows read and judged in one piece; between two, newer orders are heard. */
const PART = 250;

interface Part {
  readonly first: number;
  readonly days: readonly WardDay[];
  columns?: CaseColumns;
  base?: CasesJudged;
}

/** As many days as wanted of as many patients as that takes; a patient's days do not depend on the others. */
export function daysOf(ward: WardDocument, seed: number, wanted: number): WardDay[] {
  let patients = Math.ceil(wanted / 5);
  for (;;) {
    const days = simulateWard({ ...ward, patients }, seed);
    if (days.length >= wanted) return days.slice(0, wanted);
    patients = Math.ceil(patients * 1.3);
  }
}

/** An invented ward, read once into columns; every edit judges them again, and the newest edit wins. */
export class Ward {
  readonly days: readonly WardDay[];
  readonly #parts: readonly Part[];
  readonly #post: (news: WardNews | Step) => void;
  #generation = 0;
  #base: { readonly releases: readonly Release[]; readonly plan: Plan } | undefined;
  #burden: ReturnType<WardBurdenCounter['total']> | undefined;

  constructor(days: readonly WardDay[], post: (news: WardNews | Step) => void) {
    this.days = days;
    this.#post = post;
    this.#parts = Array.from({ length: Math.ceil(days.length / PART) }, (_, at) => ({
      first: at * PART,
      days: days.slice(at * PART, (at + 1) * PART),
    }));
  }

  /** Ends what is running; what was read stays read. */
  cancel(): void {
    this.#generation = -1;
  }

  async try(generation: number, base: readonly Release[] | undefined, own: readonly Release[]) {
    this.#generation = generation;
    if (base) this.#base = { releases: base, plan: compiled(base) };
    const published = this.#base;
    if (!published) throw new Error('the published rules were not given');
    const changed = new Map(own.map((release) => [release.id, release]));
    const ours =
      own.length === 0 ? undefined : compiled(published.releases.map((one) => changed.get(one.id) ?? one));
    const counters = {
      base: new WardBurdenCounter(),
      ours: new WardBurdenCounter(),
      changes: new WardChangesCounter(),
    };
    for (const [at, part] of this.#parts.entries()) {
      this.#post({ kind: 'progress', generation, done: at, of: this.#parts.length });
      await pause();
      if (generation !== this.#generation) return;
      part.columns ??= readCases(
        published.plan,
        part.days.map((day) => day.case),
      );
      part.base ??= judgeCases(published.plan, part.columns);
      if (!this.#burden) counters.base.add(part.base, part.days);
      if (!ours) continue;
      const judged = judgeCases(ours, part.columns);
      counters.ours.add(judged, part.days);
      counters.changes.add(part.base, judged, part.days, part.first);
    }
    this.#burden ??= counters.base.total();
    const changes = ours && counters.changes.total();
    if (ours && changes) this.#reproduce(published.plan, ours, changes);
    const result: WardResult = {
      days: this.days.length,
      patients: this.#burden.patients,
      base: this.#burden,
      ...(ours && { ours: counters.ours.total() }),
      ...(changes && { changes }),
      named: Object.fromEntries(
        (changes?.rules ?? []).flatMap(({ moves }) =>
          moves.flatMap(({ examples }) =>
            examples.map((row) => [row, { patient: this.days[row]!.patient, day: this.days[row]!.day }]),
          ),
        ),
      ),
    };
    this.#post({ kind: 'result', generation, result });
    this.#post({ kind: 'done', generation });
  }

  /**
   * Of each changed rule the first example is assessed the way its page will: one case at a time must give what the
   * columns gave. All examples would take seconds.
   */
  #reproduce(base: Plan, ours: Plan, { rules }: WardChanges): void {
    const seen = new Map<number, readonly [Outcomes, Outcomes]>();
    for (const { set, rule, moves } of rules) {
      const [{ examples: [row] = [], before, now } = {}] = moves;
      if (row === undefined) continue;
      const known = seen.get(row) ?? ([this.#one(base, row), this.#one(ours, row)] as const);
      seen.set(row, known);
      const key = `${set}/${rule}`;
      if (known[0].get(key) !== before || known[1].get(key) !== now)
        throw new Error(`${key}: the ward and the patient page disagree on row ${row + 1}`);
    }
  }

  #one(plan: Plan, row: number): Outcomes {
    const { ruleSets } = assess(plan, this.days[row]!.case, {
      reasons: 'none',
      asks: false,
      optionFacts: false,
    });
    return new Map(
      ruleSets.flatMap(({ id, rules }) => rules.map((rule) => [`${id}/${rule.id}`, rule.outcome] as const)),
    );
  }
}

type Outcomes = ReadonlyMap<string, string>;

function compiled(releases: readonly Release[]): Plan {
  const plan = planOf(releases);
  if (!isPlan(plan)) throw new Error(plan.join('; '));
  return plan;
}
