import type { AmendmentRecord, Rule, RuleAdvice, StockItem } from '@dwellset/core';
import type { Parts } from '../build/parts.ts';
import type { Refusals } from './refusals.ts';

export type RecordedChange = AmendmentRecord['changes'][number];

/** What an amendment did to one rule, and where it says so. */
export interface RuleChange {
  readonly kind: 'switchOff' | 'replace' | 'reword' | 'add' | 'addText' | 'raise';
  readonly rule: string;
  readonly pointer: string;
}

/** The rules and stock of one set while changes are made to them, and what may not be done to a rule. */
export class Workpiece {
  rules: Rule[];
  stock: Record<string, readonly StockItem[]>;
  readonly done: RuleChange[] = [];
  readonly recorded: RecordedChange[] = [];
  readonly base: Parts;
  readonly refusals: Refusals;

  constructor(base: Parts, refusals: Refusals) {
    this.base = base;
    this.refusals = refusals;
    this.rules = [...base.rules];
    this.stock = { ...base.stock };
  }

  /** Takes the place of the rule with the same id. */
  put(rule: Rule): void {
    this.rules = this.rules.map((other) => (other.id === rule.id ? rule : other));
  }

  /** The rule as it stands so far; a second change that would undo or repeat an earlier one is refused. */
  changeable(id: string, kind: RuleChange['kind'], at: string): Rule | undefined {
    const rule = this.rules.find((other) => other.id === id);
    if (rule === undefined) {
      this.refusals.add(at, 'unknown-rule', `there is no rule \`${id}\` in \`${this.base.ruleSet.id}\``);
      return undefined;
    }
    const earlier = this.done.find((change) => change.rule === id && !goTogether(change.kind, kind));
    if (earlier !== undefined) {
      this.refusals.add(at, 'changed-twice', `\`${id}\` is already changed at \`${earlier.pointer}\``);
      return undefined;
    }
    this.done.push({ kind, rule: id, pointer: at });
    return rule;
  }

  /** The same, for what a locked rule is protected from. */
  unlocked(id: string, kind: RuleChange['kind'], at: string, what: string): Rule | undefined {
    const rule = this.changeable(id, kind, at);
    if (!rule?.locked) return rule;
    const code =
      { switchOff: 'locked-switched-off', replace: 'locked-replaced' }[kind as string] ?? 'locked-reworded';
    this.refusals.add(at, code, `\`${id}\` is locked and may not be ${what}`, {
      hint: 'text may be added to it, and its indicator raised',
    });
    return undefined;
  }

  /** Only the published rules lock: a local lock would stand beside, or above, theirs. */
  claimsNoLock(rule: { id: string; locked?: boolean }, at: string): boolean {
    if (!rule.locked) return true;
    this.refusals.add(
      `${at}/locked`,
      'local-lock',
      `\`${rule.id}\` is a local rule, and only published rules are locked`,
    );
    return false;
  }

  /** The advice of a rule that must have some. */
  adviceOf(rule: Rule, at: string): RuleAdvice | undefined {
    if (!rule.advice)
      this.refusals.add(at, 'no-advice', `\`${rule.id}\` gives no advice that could be changed`);
    return rule.advice;
  }
}

const ALONE: readonly RuleChange['kind'][] = ['switchOff', 'replace', 'add'];

/** Rewording, adding text and raising may meet in one rule, each once; text may be added again. */
const goTogether = (earlier: RuleChange['kind'], now: RuleChange['kind']): boolean =>
  !ALONE.includes(earlier) && !ALONE.includes(now) && (earlier !== now || now === 'addText');
