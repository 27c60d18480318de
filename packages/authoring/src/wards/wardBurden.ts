import type { CasesJudged, PlanSet } from '@dwellset/core';
import { countDay, type RuleBurden } from './burden.ts';
import { type OutcomesOver, outcomesOver } from './outcomesOver.ts';
import type { WardDay } from './simulate.ts';

/** What a plan says over many days of a ward; the same counts as one assessment a day gives, without questions. */
export interface WardBurden {
  readonly patients: number;
  readonly patientDays: number;
  readonly advice: number;
  readonly repeats: number;
  /** Rules that apply, and rules that could not be decided. */
  readonly applies: number;
  readonly undetermined: number;
  /** Most frequent first; of equals, in order of sets and rules. */
  readonly rules: readonly RuleBurden[];
  /** Patient-days with no advice, with one piece of advice, with two and so on. */
  readonly daysByAdvice: readonly number[];
}

interface Speaker {
  readonly counted: { -readonly [K in keyof RuleBurden]: RuleBurden[K] };
  readonly outcomes: OutcomesOver;
  readonly isFoldable: boolean;
  readonly speaks: boolean;
  readonly supersedes: readonly string[];
}

/** Counts advice a part of the ward at a time; parts are added in the order of the ward. */
export class WardBurdenCounter {
  private readonly rules = new Map<string, Speaker['counted']>();
  private readonly sums = { patientDays: 0, advice: 0, repeats: 0, applies: 0, undetermined: 0 };
  private readonly patients = new Set<number>();
  private readonly daysByAdvice: number[] = [];
  private before: { patient: number; said: ReadonlySet<string> } = { patient: 0, said: new Set() };

  add(judged: CasesJudged, days: readonly WardDay[]): void {
    const sets = judged.plan.sets.map((set) => this.speakersOf(judged, set));
    days.forEach(({ patient }, row) => {
      const said = new Set<string>();
      for (const speakers of sets) this.say(speakers, row, said);
      for (const key of said) {
        const counted = this.rules.get(key)!;
        counted.days += 1;
        this.sums.advice += 1;
        if (this.before.patient !== patient || !this.before.said.has(key)) continue;
        counted.repeats += 1;
        this.sums.repeats += 1;
      }
      this.before = { patient, said };
      countDay(this.daysByAdvice, said.size);
      this.patients.add(patient);
      this.sums.patientDays += 1;
    });
  }

  total(): WardBurden {
    const rules = [...this.rules.values()].filter(({ days }) => days > 0).sort((a, b) => b.days - a.days);
    return { patients: this.patients.size, ...this.sums, rules, daysByAdvice: [...this.daysByAdvice] };
  }

  private speakersOf(judged: CasesJudged, set: PlanSet): ReadonlyMap<string, Speaker> {
    const { id, shape } = set.release;
    return new Map(
      set.rules.map(({ rule, when, excludes }) => {
        const key = `${id}/${rule.id}`;
        const indicator = rule.advice?.indicator ?? 'info';
        const counted = this.rules.get(key) ?? { set: id, rule: rule.id, indicator, days: 0, repeats: 0 };
        this.rules.set(key, counted);
        const speaker = {
          counted,
          outcomes: outcomesOver(judged, id, rule.id),
          isFoldable: !(rule.locked && indicator === 'critical'),
          // Of a choice, only what looks at the patient speaks before an option is chosen; nobody chooses here.
          speaks:
            rule.advice !== undefined &&
            (shape !== 'choice' || (when !== undefined && excludes !== undefined)),
          supersedes: rule.supersedes ?? [],
        };
        return [rule.id, speaker];
      }),
    );
  }

  /** Adds what is said of one day, without what is folded. */
  private say(speakers: ReadonlyMap<string, Speaker>, row: number, said: Set<string>): void {
    const applying = new Map<string, Speaker>();
    for (const [id, speaker] of speakers) {
      const outcome = speaker.outcomes.at(row);
      if (outcome === 'undetermined') this.sums.undetermined += 1;
      if (outcome === 'applies') applying.set(id, speaker);
    }
    this.sums.applies += applying.size;
    const gone = new Set<string>();
    const fold = (id: string, seen: ReadonlySet<string>): void => {
      for (const below of applying.get(id)?.supersedes ?? []) {
        if (seen.has(below)) continue;
        gone.add(below);
        fold(below, new Set([...seen, below]));
      }
    };
    for (const [id, { speaks }] of applying) if (speaks) fold(id, new Set([id]));
    for (const [id, { speaks, isFoldable, counted }] of applying) {
      if (speaks && !(isFoldable && gone.has(id))) said.add(`${counted.set}/${id}`);
    }
  }
}
