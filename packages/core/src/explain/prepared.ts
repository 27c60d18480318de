import type { PlanRule, PlanSet } from '../plan/plan.ts';
import type { Rule } from '../release/rule.ts';
import type { Advice, EvidenceShown, Outcome, RuleResult } from './assessment.ts';
import { evidenceShown, restsOnMemory } from './evidenceShown.ts';
import { Texts } from './expand.ts';

/** What an assessment says of one rule whatever the case is. Shared by all assessments of a plan, so frozen. */
export interface PreparedRule {
  /** `<set>@<version>/<rule>` */
  readonly adviceId: string;
  /** `<set>/<rule>`, as questions name it. */
  readonly name: string;
  /** Locked, or critical: its question comes first. */
  readonly isStop: boolean;
  /** Place of what it concludes in the precedence of its set. */
  readonly concludesAt: number;
  readonly evidence: readonly EvidenceShown[];
  /** Nothing better than memory stands behind it. */
  readonly memoryOnly: boolean;
  /** Its texts say the same of every case. */
  readonly isFixed: boolean;
  /** Its advice, once it has spoken, where that is the same for every case. */
  advice: Advice | undefined;
  /** Its result where nothing but the outcome is to be said. */
  readonly results: Partial<Record<Outcome, RuleResult>>;
}

/** What does not change from case to case in the explanation of one rule set; a rule is prepared when first met. */
export class Prepared {
  readonly texts: Texts;
  /** By rule, the places of those that fold its advice. */
  readonly foldedBy: ReadonlyMap<string, readonly number[]>;
  private readonly set: PlanSet;
  private readonly rules: (PreparedRule | undefined)[];
  private readonly precedence: ReadonlyMap<string, number>;
  private places: ReadonlyMap<string, number> | undefined;

  constructor(set: PlanSet) {
    this.set = set;
    this.texts = new Texts(set.release);
    this.foldedBy = foldedBy(set);
    this.rules = set.rules.map(() => undefined);
    this.precedence = new Map((set.release.conclusions ?? []).map(({ id }, at) => [id, at]));
  }

  /** Place of a rule in its set. */
  index(rule: string): number | undefined {
    this.places ??= new Map(this.set.rules.map(({ rule: { id } }, at) => [id, at]));
    return this.places.get(rule);
  }

  rule(index: number): PreparedRule {
    this.rules[index] ??= this.prepare(this.set.rules[index]!);
    return this.rules[index];
  }

  /** The first conclusion has place 0; what is no conclusion, or the default, comes after all others. */
  place(conclusion: string | undefined): number {
    return (conclusion === undefined ? undefined : this.precedence.get(conclusion)) ?? Infinity;
  }

  private prepare({ rule }: PlanRule): PreparedRule {
    const { release } = this.set;
    const evidence = evidenceShown(release, rule.evidence);
    freeze(evidence);
    return {
      adviceId: `${release.id}@${release.version}/${rule.id}`,
      name: `${release.id}/${rule.id}`,
      isStop: rule.locked === true || rule.advice?.indicator === 'critical',
      concludesAt: this.place(rule.concludes),
      evidence,
      memoryOnly: restsOnMemory(evidence),
      isFixed: textsOf(rule).every((text) => this.texts.isFixed(text)),
      advice: undefined,
      results: {},
    };
  }
}

const textsOf = ({ advice, because }: Rule): string[] => [
  because,
  advice?.summary ?? '',
  ...[advice?.detail ?? []].flat(),
  ...(advice?.suggestions ?? []).map(({ label }) => label),
];

function foldedBy({ rules }: PlanSet): Map<string, number[]> {
  const found = new Map<string, number[]>();
  rules.forEach(({ rule }, at) => {
    for (const id of new Set(rule.supersedes)) found.set(id, [...(found.get(id) ?? []), at]);
  });
  return found;
}

export function freeze(value: unknown): void {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return;
  for (const inner of Object.values(value)) freeze(inner);
  Object.freeze(value);
}

const known = new WeakMap<PlanSet, Prepared>();

/** Worked out once a rule set of a plan. */
export function preparedOf(set: PlanSet): Prepared {
  let found = known.get(set);
  if (!found) {
    found = new Prepared(set);
    known.set(set, found);
  }
  return found;
}
