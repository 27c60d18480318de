import type { CasesJudged, Outcome } from '@dwellset/core';
import { type OutcomesOver, outcomesOver } from './outcomesOver.ts';
import type { WardDay } from './simulate.ts';

/** One way in which a rule ends differently; `before` is absent for a rule that was added. */
export interface RuleMove {
  readonly before?: Outcome;
  readonly now: Outcome;
  readonly days: number;
  readonly patients: number;
  /** Rows of the ward, of different patients, that show it. */
  readonly examples: readonly number[];
}

export interface RuleChanges {
  readonly set: string;
  readonly rule: string;
  /** Patient-days and patients that end differently. */
  readonly days: number;
  readonly patients: number;
  /** Most frequent first. */
  readonly moves: readonly RuleMove[];
}

export interface WardChanges {
  readonly days: number;
  readonly patients: number;
  /** Most frequent first; of equals, in order of sets and rules. */
  readonly rules: readonly RuleChanges[];
}

interface Counted {
  readonly move: { before?: Outcome; now: Outcome };
  days: number;
  readonly patients: Set<number>;
  readonly examples: number[];
}

const MOST_EXAMPLES = 3;
const SPEAKS: ReadonlySet<Outcome | undefined> = new Set(['applies', 'undetermined']);

/** A rule added, or switched off, changes only those it speaks or spoke to, or asks or asked about. */
function isChange(before: Outcome | undefined, now: Outcome): boolean {
  if (before === undefined) return SPEAKS.has(now);
  if (now === 'switched-off') return SPEAKS.has(before);
  return before !== now;
}

/** Counts, a part of the ward at a time, what a second plan changes. */
export class WardChangesCounter {
  private readonly rules = new Map<string, { set: string; rule: string; moves: Map<string, Counted> }>();
  private readonly patients = new Set<number>();
  private days = 0;

  /** `first` is the row of the ward at which these days begin; both plans were judged on exactly these days. */
  add(base: CasesJudged, ours: CasesJudged, days: readonly WardDay[], first: number): void {
    const changed = new Uint8Array(days.length);
    for (const { release, rules } of ours.plan.sets) {
      const known = base.plan.sets.find((set) => set.release.id === release.id);
      const before = new Set(known?.rules.map(({ rule }) => rule.id));
      for (const { rule } of rules) {
        const was = before.has(rule.id) ? outcomesOver(base, release.id, rule.id) : undefined;
        const now = outcomesOver(ours, release.id, rule.id);
        if (was && isSame(was, now)) continue;
        this.compare(release.id, rule.id, was, now, days, first, changed);
      }
    }
    days.forEach(({ patient }, row) => {
      if (changed[row] === 0) return;
      this.days += 1;
      this.patients.add(patient);
    });
  }

  total(): WardChanges {
    const rules = [...this.rules.values()].map(({ set, rule, moves }): RuleChanges => {
      const all = [...moves.values()].sort((a, b) => b.days - a.days);
      return {
        set,
        rule,
        days: all.reduce((sum, { days }) => sum + days, 0),
        patients: new Set(all.flatMap(({ patients }) => [...patients])).size,
        moves: all.map(({ move, days, patients, examples }) => ({
          ...move,
          days,
          patients: patients.size,
          examples,
        })),
      };
    });
    return {
      days: this.days,
      patients: this.patients.size,
      rules: rules.sort((a, b) => b.days - a.days),
    };
  }

  private compare(
    set: string,
    rule: string,
    was: OutcomesOver | undefined,
    now: OutcomesOver,
    days: readonly WardDay[],
    first: number,
    changed: Uint8Array,
  ): void {
    const key = `${set}/${rule}`;
    days.forEach(({ patient }, row) => {
      const before = was?.at(row);
      const after = now.at(row);
      if (!isChange(before, after)) return;
      changed[row] = 1;
      const known = this.rules.get(key) ?? { set, rule, moves: new Map<string, Counted>() };
      this.rules.set(key, known);
      const name = `${before} ${after}`;
      const move = known.moves.get(name) ?? {
        move: { ...(before && { before }), now: after },
        days: 0,
        patients: new Set<number>(),
        examples: [],
      };
      known.moves.set(name, move);
      move.days += 1;
      if (!move.patients.has(patient) && move.examples.length < MOST_EXAMPLES)
        move.examples.push(first + row);
      move.patients.add(patient);
    });
  }
}

const isSame = ({ over: a }: OutcomesOver, { over: b }: OutcomesOver): boolean =>
  a.switchedOff === b.switchedOff &&
  (['applies', 'doesNotApply', 'undetermined', 'notInScope'] as const).every((part) =>
    a[part].every((bits, word) => bits === b[part][word]),
  );
